import type { Currency } from '../../../valuation/types.ts';
import { axisText } from '../format.ts';

const tick = { fill: 'var(--ink-soft)', fontSize: 12 };
const month = new Intl.DateTimeFormat(undefined, { month: 'short', year: 'numeric', timeZone: 'UTC' });

/** How the axis of time looks; its values are in milliseconds. */
export const timeLook = {
  dataKey: 'time',
  type: 'number',
  tick,
  stroke: 'var(--hairline-strong)',
  tickLine: false,
} as const;

/** Time from the first day to the last, told by months. */
export const timeAxis = {
  ...timeLook,
  scale: 'time',
  domain: ['dataMin', 'dataMax'] as [string, string],
  tickFormatter: (time: number) => month.format(time),
} as const;

/** Amounts in minor units of a currency. */
export const amountAxis = (currency: Currency) => ({
  tickFormatter: (minor: number) => axisText(minor, currency),
  tick,
  axisLine: false,
  tickLine: false,
});
