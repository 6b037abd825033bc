import { Suspense } from 'react';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Currency, Range } from '../../../../../valuation/types.ts';
import { dateText, worthText } from '../../../../components/format.ts';
import { lateCode, useLate } from '../../../../components/late-code.ts';
import { LoadingState } from '../../../../components/layout/loading-state.tsx';
import { chartHeight, historyLines, historyPoints } from './history-points.ts';
import classes from './worth.module.css';

/** Charts are more code than all else that the list of cars needs. */
const worthLines = lateCode(() => import('./worth-lines.tsx'));

/** The worths that were kept of this car: the three middles, and the range of the first as a band. */
export const WorthHistory = ({ car, currency }: { car: CarPage; currency: Currency }) => {
  const Lines = useLate(worthLines);
  const first = car.valuations[0];
  const last = car.valuations.at(-1);
  if (!first || !last || car.valuations.length < 2)
    return (
      <p className="soft">
        {first
          ? `One valuation was saved, on ${dateText(first.on)}. The curve starts with the second.`
          : 'No valuation of this car has been saved yet. Save one in Settings.'}
      </p>
    );
  const said = (range: Range | null) => (range ? worthText(range.mid, currency) : 'not known');
  return (
    <figure className={classes.curve}>
      <figcaption className="heard">
        Value as found {said(first.asFound)} {currency} on {dateText(first.on)}, {said(last.asFound)} on{' '}
        {dateText(last.on)}, over {car.valuations.length} valuations.
      </figcaption>
      <div aria-hidden="true">
        <div style={{ height: chartHeight }}>
          <Suspense fallback={<LoadingState part />}>
            <Lines points={historyPoints(car.valuations)} currency={currency} />
          </Suspense>
        </div>
        <ul className={classes.lines}>
          {historyLines.map(({ key, name, colour, dash }) => (
            <li key={key}>
              <svg width="24" height="8" aria-hidden="true">
                <line
                  x1="0"
                  x2="24"
                  y1="4"
                  y2="4"
                  stroke={colour}
                  strokeWidth="1.75"
                  strokeDasharray={dash}
                />
              </svg>
              {name}
            </li>
          ))}
        </ul>
      </div>
    </figure>
  );
};
