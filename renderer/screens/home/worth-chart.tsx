import { Area, AreaChart, CartesianGrid, ResponsiveContainer, Tooltip, XAxis, YAxis } from 'recharts';
import type { HomeView } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { amountAxis, timeAxis } from '../../components/charts/axes.ts';
import { Reading } from '../../components/charts/reading.tsx';
import { dateText, worthText } from '../../components/format.ts';

type Point = HomeView['overTime'][number] & { time: number };

const yearStarts = (points: Point[]): number[] => {
  const first = new Date(points[0]?.time ?? 0).getUTCFullYear();
  const last = new Date(points.at(-1)?.time ?? 0).getUTCFullYear();
  const marks: number[] = [];
  for (let year = first; year <= last; year++)
    for (const month of points.length > 40 ? [0] : [0, 6]) marks.push(Date.UTC(year, month, 1));
  return marks.filter(time => time >= (points[0]?.time ?? 0) && time <= (points.at(-1)?.time ?? 0));
};

/** The curve of worth over the days that were valued; what it says stands beside it in words. */
const WorthChart = ({ points, currency }: { points: HomeView['overTime']; currency: Currency }) => {
  const data: Point[] = points.map(point => ({ ...point, time: Date.parse(`${point.on}T00:00:00Z`) }));
  return (
    <ResponsiveContainer width="100%" height={220}>
      <AreaChart data={data} margin={{ top: 12, right: 8, bottom: 0, left: 0 }} accessibilityLayer={false}>
        <CartesianGrid vertical={false} stroke="var(--hairline)" />
        <XAxis {...timeAxis} ticks={yearStarts(data)} />
        <YAxis {...amountAxis(currency)} width={56} tickCount={4} />
        <Tooltip
          content={pointed => (
            <Reading<Point> {...pointed}>
              {point => (
                <>
                  <strong>{worthText(point.asFound, currency)}</strong> {currency} for {point.cars} cars
                  <br />
                  {dateText(point.on)}
                </>
              )}
            </Reading>
          )}
          cursor={{ stroke: 'var(--hairline-strong)' }}
          isAnimationActive={false}
        />
        <Area
          dataKey="asFound"
          type="linear"
          stroke="var(--worth-found)"
          strokeWidth={2}
          fill="var(--worth-found)"
          fillOpacity={0.08}
          isAnimationActive={false}
          dot={false}
          activeDot={{ r: 4, fill: 'var(--worth-found)', stroke: 'var(--page)' }}
        />
      </AreaChart>
    </ResponsiveContainer>
  );
};

export default WorthChart;
