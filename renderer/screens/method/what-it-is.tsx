import type { Currency } from '../../../valuation/types.ts';
import { Section } from '../../components/layout/section.tsx';
import classes from './method.module.css';

const gainWords = (gain: number): string => {
  if (gain <= 0) return '';
  if (gain === 0.5) return ', half a grade up and no further than C8';
  return gain === 1 ? ', a grade up and no further than C8' : `, ${gain} grades up and no further than C8`;
};

/** What the three figures and their ranges mean. */
export const WhatItIs = ({ currency, gain }: { currency: Currency; gain: number }) => (
  <Section id="what" title="What a value is">
    <div className={classes.prose}>
      <p>
        A value is the price in {currency} at which such a car is likely to change hands on the effective
        date, before selling costs. It is always a range: 80 % of such sales should fall between{' '}
        <strong>low</strong> and <strong>high</strong>, and half above <strong>mid</strong>. Each car has
        three:
      </p>
      <dl className={classes.three}>
        <dt data-worth="found">As found</dt>
        <dd>with its grade, its finish and its parts as they are today.</dd>
        <dt data-worth="restored">Restored</dt>
        <dd>
          as its plan leaves it, or one made from the car where it has none, over the grades in which such
          work can end; shown after the cost of the work, and always as a restored car.
        </dd>
        <dt data-worth="original">Original finish</dt>
        <dd>
          with its factory finish, at the grade that cleaning and straightening alone can reach
          {gainWords(gain)}. Where the finish is gone, what such a car would sell for, marked as no longer
          attainable.
        </dd>
      </dl>
    </div>
  </Section>
);
