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
import type { Currency } from '../../../../../valuation/types.ts';
import { amountAxis, timeAxis } from '../../../../components/charts/axes.ts';
import { Reading } from '../../../../components/charts/reading.tsx';
import { dateText, worthText } from '../../../../components/format.ts';
import { chartHeight, type HistoryPoint, historyLines } from './history-points.ts';
import classes from './worth.module.css';

const Values = ({ point, currency }: { point: HistoryPoint; currency: Currency }) => (
  <>
    {dateText(point.on)}
    <dl className={classes.readValues}>
      {historyLines.map(({ key, name }) => {
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

/** The three middles over time, and the range of the first as a band. */
const WorthLines = ({ points, currency }: { points: HistoryPoint[]; currency: Currency }) => (
  <ResponsiveContainer width="100%" height={chartHeight}>
    <ComposedChart data={points} margin={{ top: 8, right: 8, bottom: 0, left: 0 }} accessibilityLayer={false}>
      <CartesianGrid vertical={false} stroke="var(--hairline)" />
      <XAxis {...timeAxis} minTickGap={56} />
      <YAxis {...amountAxis(currency)} width={48} tickCount={4} />
      <Tooltip
        content={pointed => (
          <Reading<HistoryPoint> {...pointed}>
            {point => <Values point={point} currency={currency} />}
          </Reading>
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
      {historyLines.map(({ key, colour, dash }) => (
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
);

export default WorthLines;
