import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Guard } from '../../../../../valuation/index.ts';
import type { Currency } from '../../../../../valuation/types.ts';
import { deltaText, percentText } from '../../../../components/format.ts';
import {
  RecommendationGlyph,
  recommendationWord,
} from '../../../../components/marks/recommendation-mark.tsx';
import classes from './recommendation.module.css';
import { Tornado } from './tornado.tsx';

/** The guards of all options, each once. */
export const guardsOf = (car: Pick<CarPage, 'decision'>): Guard[] => {
  const all = car.decision.options.flatMap(option => option.guards);
  return all.filter((guard, place) => all.findIndex(other => other.kind === guard.kind) === place);
};

const saysBreakEven = (reason: string) => / goes on paying as long as | pays only if /.test(reason);

const Headline = ({ car, currency }: { car: CarPage; currency: Currency }) => {
  const { recommendation, probability, expectedGain, best } = car.decision;
  if (recommendation === 'not-enough-evidence')
    return <span className={classes.lead}>No option can be weighed yet.</span>;
  if (recommendation === 'leave')
    return (
      <span className={classes.lead}>
        {best === 'leave' || probability === 0
          ? 'Nothing beats leaving it as it is.'
          : `The nearest to it, ${best}, beats leaving in ${percentText(probability)} of cases.`}
      </span>
    );
  return (
    <span className={classes.lead}>
      <strong>{deltaText(expectedGain, currency)}</strong> expected over leaving, and better than leaving with{' '}
      <strong>{percentText(probability)}</strong> probability
    </span>
  );
};

/** What the figures recommend, why, what stands against it, and which of them matter. */
export const WhatToDo = ({ car, currency }: { car: CarPage; currency: Currency }) => {
  const { decision } = car;
  const evenly = decision.reasons.find(saysBreakEven);
  const guards = guardsOf(car);
  return (
    <div className={classes.whatToDo}>
      <div>
        <p className={classes.headline}>
          <span className={classes.mark}>
            <RecommendationGlyph recommendation={decision.recommendation} />
            {recommendationWord(decision.recommendation)}
          </span>
          <Headline car={car} currency={currency} />
        </p>
        {car.status === 'sold' ? (
          <p className="soft">It has been sold; this is what the figures say of it as it was.</p>
        ) : null}
        {evenly ? <p className={classes.even}>{evenly}</p> : null}
        {guards.length > 0 ? (
          <ul className={classes.guards} aria-label="Against painting it">
            {guards.map(guard => (
              <li key={guard.kind} data-overruled={guard.overruled || undefined}>
                <span className={classes.guardWord}>{guard.overruled ? 'overruled' : 'keep'}</span>
                {guard.sentence}
              </li>
            ))}
          </ul>
        ) : null}
        <ul className={classes.reasons}>
          {decision.reasons
            .filter(reason => reason !== evenly && !guards.some(guard => guard.sentence === reason))
            .map(reason => (
              <li key={reason}>{reason}</li>
            ))}
          {decision.recommendation === 'not-enough-evidence'
            ? car.help.map(sentence => <li key={sentence}>{sentence}</li>)
            : null}
        </ul>
      </div>
      <Tornado car={car} currency={currency} />
    </div>
  );
};
