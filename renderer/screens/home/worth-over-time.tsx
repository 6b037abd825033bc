import { Suspense } from 'react';
import type { HomeView } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { dateText, worthText } from '../../components/format.ts';
import { useLate } from '../../components/late-code.ts';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import classes from './home.module.css';
import { worthCurve } from './worth-curve.ts';

/** The worth as found of the cars that were owned on each day that was valued. */
export const WorthOverTime = ({ points, currency }: { points: HomeView['overTime']; currency: Currency }) => {
  const Chart = useLate(worthCurve);
  if (points.length < 2)
    return (
      <p className={classes.noCurve}>
        The value curve starts with the second valuation you save. Save one in Settings.
      </p>
    );
  const [first, last] = [points[0]!, points.at(-1)!];
  return (
    <figure className={classes.curve}>
      <figcaption className="heard">
        Value as found over time: {worthText(first.asFound, currency)} {currency} for {first.cars} cars on{' '}
        {dateText(first.on)}, {worthText(last.asFound, currency)} {currency} for {last.cars} cars on{' '}
        {dateText(last.on)}.
      </figcaption>
      <div className={classes.chart} aria-hidden="true">
        <Suspense fallback={<LoadingState part />}>
          <Chart points={points} currency={currency} />
        </Suspense>
      </div>
    </figure>
  );
};
