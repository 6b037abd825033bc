import {
  Area,
  CartesianGrid,
  ComposedChart,
  Line,
  ResponsiveContainer,
  Tooltip,
  XAxis,
  YAxis,
} from 'recharts';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Currency, Range } from '../../../../../valuation/types.ts';
import { amountAxis, timeAxis } from '../../../../components/charts/axes.ts';
import { Reading } from '../../../../components/charts/reading.tsx';
import { dateText, worthText } from '../../../../components/format.ts';
import classes from './worth.module.css';

interface Point {
  time: number;
  on: string;
  band: [number, number] | null;
  asFound: number | null;
  restored: number | null;
  originalFinish: number | null;
}

const lines = [
  { key: 'asFound', name: 'as found', colour: 'var(--worth-found)', dash: '' },
  { key: 'restored', name: 'restored, before cost', colour: 'var(--worth-restored)', dash: '6 3' },
  { key: 'originalFinish', name: 'original finish', colour: 'var(--worth-original)', dash: '2 3' },
] as const;

const Values = ({ point, currency }: { point: Point; currency: Currency }) => (
  <>
    {dateText(point.on)}
    <dl className={classes.readValues}>
      {lines.map(({ key, name }) => {
        const value = point[key];
        return value === null ? null : (
          <div key={key} style={{ display: 'contents' }}>
            <dt>{name}</dt>
            <dd>{worthText(value, currency)}</dd>
          </div>
        );
      })}
    </dl>
  </>
);

const middle = (range: Range | null): number | null => range?.mid ?? null;

/** The worths that were kept of this car: the three middles, and the range of the first as a band. */
export const WorthHistory = ({ car, currency }: { car: CarPage; currency: Currency }) => {
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
  const data: Point[] = car.valuations.map(({ on, asFound, restored, originalFinish }) => ({
    time: Date.parse(`${on}T00:00:00Z`),
    on,
    band: asFound && [asFound.low, asFound.high],
    asFound: middle(asFound),
    restored: middle(restored),
    originalFinish: middle(originalFinish),
  }));
  const said = (range: Range | null) => (range ? worthText(range.mid, currency) : 'not known');
  return (
    <figure className={classes.curve}>
      <figcaption className="heard">
        Value as found {said(first.asFound)} {currency} on {dateText(first.on)}, {said(last.asFound)} on{' '}
        {dateText(last.on)}, over {car.valuations.length} valuations.
      </figcaption>
      <div aria-hidden="true">
        <ResponsiveContainer width="100%" height={180}>
          <ComposedChart
            data={data}
            margin={{ top: 8, right: 8, bottom: 0, left: 0 }}
            accessibilityLayer={false}
          >
            <CartesianGrid vertical={false} stroke="var(--hairline)" />
            <XAxis {...timeAxis} minTickGap={56} />
            <YAxis {...amountAxis(currency)} width={48} tickCount={4} />
            <Tooltip
              content={pointed => (
                <Reading<Point> {...pointed}>{point => <Values point={point} currency={currency} />}</Reading>
              )}
              isAnimationActive={false}
            />
            <Area
              dataKey="band"
              stroke="none"
              fill="var(--worth-found)"
              fillOpacity={0.1}
              isAnimationActive={false}
              activeDot={false}
            />
            {lines.map(({ key, colour, dash }) => (
              <Line
                key={key}
                dataKey={key}
                stroke={colour}
                strokeWidth={1.75}
                strokeDasharray={dash}
                dot={false}
                isAnimationActive={false}
              />
            ))}
          </ComposedChart>
        </ResponsiveContainer>
        <ul className={classes.lines}>
          {lines.map(({ key, name, colour, dash }) => (
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
