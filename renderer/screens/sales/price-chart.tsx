import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { CartesianGrid, ResponsiveContainer, Scatter, ScatterChart, Tooltip, XAxis, YAxis } from 'recharts';
import type { SaleWindow } from '../../../electron/api/views.ts';
import { rateFinder } from '../../../valuation/market/exchange-rate.ts';
import type { Currency } from '../../../valuation/types.ts';
import { conditionLabel } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { amountAxis, timeLook } from '../../components/charts/axes.ts';
import { Reading } from '../../components/charts/reading.tsx';
import { amountText, dateText, worthText } from '../../components/format.ts';
import { readerWords } from '../../components/words.ts';
import { logTicks, type PricePoint, pricePoints, yearTicks } from './price-points.ts';
import { saleName } from './sale-edits.ts';
import classes from './sales.module.css';

/** So many sales are drawn, the newest. */
const mostDrawn = 2000;

const Dot = ({
  cx = 0,
  cy = 0,
  payload,
  onOpen,
}: {
  cx?: number;
  cy?: number;
  payload?: PricePoint;
  onOpen: (id: number) => void;
}) => {
  if (!payload) return null;
  const { row } = payload;
  if (row.state === 'left out')
    return <path d={`M${cx - 4} ${cy - 4}l8 8m0 -8l-8 8`} className={classes.out} />;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the same records stand in the grid, which the keyboard walks
    <circle
      cx={cx}
      cy={cy}
      r={5}
      className={classes.dot}
      data-state={row.state}
      style={row.state === 'counted' ? { fill: row.swatch ?? 'var(--worth-found)' } : undefined}
      onClick={() => onOpen(row.id)}
    />
  );
};

const ReadSale = ({ point: { row } }: { point: PricePoint }) => (
  <>
    <strong>{amountText(row.price, row.currency)}</strong> {row.currency}, {dateText(row.soldOn)}
    <br />
    {saleName(row)}
    <br />
    {[readerWords().spell(conditionLabel(row.grade, row.finishState)), row.source].filter(Boolean).join(', ')}
    {row.state === 'counted' ? null : `, ${row.state}`}
  </>
);

/**
 * What one casting has brought over the years, each sale a dot in its own colour, on a scale of equal ratios.
 */
const PriceChart = ({
  list,
  currency,
  onOpen,
}: {
  list: Omit<SaleWindow, 'from' | 'count'>;
  currency: Currency;
  onOpen: (id: number) => void;
}) => {
  const { data: window } = useQuery({
    queryKey: ['sales', list.filter, 'chart'],
    queryFn: () =>
      api.sales.window({
        ...list,
        order: { ...list.order, sort: null, since: '' },
        from: 0,
        count: mostDrawn,
      }),
    placeholderData: keepPreviousData,
  });
  const { data: rates } = useQuery({ queryKey: ['rates'], queryFn: () => api.collection.rates() });
  const rateOf = rateFinder(
    currency,
    (rates ?? []).map(({ rate, ...rest }) => ({ ...rest, rate: Number(rate) })),
  );
  const rows = window?.rows ?? [];
  const points = pricePoints(rows, rateOf);
  if (points.length < 2) return null;
  const prices = points.map(({ amount }) => amount);
  const [low, high] = [Math.min(...prices), Math.max(...prices)];
  const ticks = logTicks(low, high, currency);
  const years = yearTicks(points);
  const lacking = rows.length - points.length;
  const older = (window?.total ?? 0) - rows.length;
  return (
    <figure className={classes.chart}>
      <figcaption className={classes.caption}>
        <span>
          Prices as they were, {currency}, each in its {readerWords().dialect.colour}; ring doubtful, cross
          left out
          {lacking > 0 ? `; ${lacking} without an exchange rate are not drawn` : ''}
          {older > 0 ? `; ${older.toLocaleString()} older ones are not drawn` : ''}
        </span>
        <span className="heard">
          {points.length} sales from {worthText(low, currency)} to {worthText(high, currency)}.
        </span>
      </figcaption>
      <div aria-hidden="true">
        <ResponsiveContainer width="100%" height={168}>
          <ScatterChart margin={{ top: 8, right: 16, bottom: 0, left: 0 }} accessibilityLayer={false}>
            <CartesianGrid stroke="var(--hairline)" vertical={false} />
            <XAxis
              {...timeLook}
              domain={['dataMin - 5000000000', 'dataMax + 5000000000']}
              ticks={years}
              tickFormatter={time => String(new Date(time).getUTCFullYear())}
            />
            <YAxis
              {...amountAxis(currency)}
              dataKey="amount"
              type="number"
              scale="log"
              domain={[Math.min(low, ticks[0] ?? low) * 0.75, Math.max(high, ticks.at(-1) ?? high) * 1.35]}
              ticks={ticks}
              allowDataOverflow
              width={56}
            />
            <Tooltip
              content={pointed => (
                <Reading<PricePoint> {...pointed}>{point => <ReadSale point={point} />}</Reading>
              )}
              cursor={false}
              isAnimationActive={false}
            />
            <Scatter data={points} isAnimationActive={false} shape={<Dot onOpen={onOpen} />} />
          </ScatterChart>
        </ResponsiveContainer>
      </div>
    </figure>
  );
};

export default PriceChart;
