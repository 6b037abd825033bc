import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Currency } from '../../../../../valuation/types.ts';
import { Headline } from '../../../../components/decision/headline.tsx';
import { BreakEven, Guards, Reasons } from '../../../../components/decision/reasons.tsx';
import { Tornado } from '../../../../components/decision/tornado.tsx';
import classes from './recommendation.module.css';

/** What the figures recommend, why, what stands against it, and which of them matter. */
export const WhatToDo = ({ car, currency }: { car: CarPage; currency: Currency }) => {
  const { decision } = car;
  return (
    <div className={classes.whatToDo}>
      <div>
        <Headline decision={decision} currency={currency} />
        {car.status === 'sold' ? (
          <p className="soft">It has been sold; this is what the figures said before the sale.</p>
        ) : null}
        {car.isSeen ? (
          <p className="soft">It was only seen; this is what the figures say if you buy it.</p>
        ) : null}
        <BreakEven decision={decision} currency={currency} />
        <Guards decision={decision} />
        <Reasons decision={decision} currency={currency} />
      </div>
      <Tornado decision={decision} planned={car.plan?.kind ?? 'restore'} currency={currency} />
    </div>
  );
};
