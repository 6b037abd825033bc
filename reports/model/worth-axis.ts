import { currencyDecimals } from '../../valuation/money.ts';
import type { Currency, Minor } from '../../valuation/types.ts';

/** The logarithmic axis that all worth strips of a report share, so that cars can be compared. */
export interface WorthAxis {
  /** Place of an amount on the axis, 0 (left end) to 1 (right end); amounts beyond it stand at its end. */
  place: (minor: Minor) => number;
  /** True where an amount lies left of the axis, or has no place on it. */
  isBefore: (minor: Minor) => boolean;
  ticks: { at: number; label: string }[];
}

// More labels than this would run into each other on a strip in print.
const mostLabels = 6;
const mostTicks = 12;

const ticksBetween = (low: number, high: number, steps: number[]): number[] => {
  const ticks: number[] = [];
  for (let decade = Math.floor(Math.log10(low)) - 1; decade <= Math.ceil(Math.log10(high)) + 1; decade += 1)
    for (const step of steps) ticks.push(Number(`${step}e${decade}`));
  const first = ticks.findLastIndex(tick => tick <= low * (1 + 1e-9));
  const last = ticks.findIndex(tick => tick >= high * (1 - 1e-9));
  return ticks.slice(first, last + 1);
};

/**
 * The axis for amounts in minor units of a currency: from a round number at or below the least to one at or
 * above the greatest, ticks at 1, 2 and 5 of each decade, or at 1 alone where those would be too many; where
 * labels would be, only the powers of ten keep theirs. Amounts of nothing and below have no place on a
 * logarithmic axis and are left out of its choice. null without any amount above nothing.
 */
export const worthAxis = (amounts: Minor[], currency: Currency, locale = 'en-US'): WorthAxis | null => {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (const minor of amounts) {
    if (minor <= 0) continue;
    low = Math.min(low, minor);
    high = Math.max(high, minor);
  }
  if (high === 0) return null;
  const unit = 10 ** currencyDecimals(currency);
  let ticks = ticksBetween(low / unit, high / unit, [1, 2, 5]);
  if (ticks.length > mostTicks) ticks = ticksBetween(low / unit, high / unit, [1]);
  const start = Math.log(ticks[0]!);
  const span = Math.log(ticks.at(-1)!) - start || 1;
  const place = (minor: Minor): number =>
    minor <= 0 ? 0 : Math.min(1, Math.max(0, (Math.log(minor / unit) - start) / span));
  const written = (tick: number): string =>
    new Intl.NumberFormat(locale, {
      maximumSignificantDigits: 1,
      notation: tick >= 100_000 ? 'compact' : 'standard',
    }).format(tick);
  const labelled = (tick: number): boolean =>
    ticks.length <= mostLabels || Math.abs(Math.log10(tick) - Math.round(Math.log10(tick))) < 1e-9;
  return {
    place,
    isBefore: minor => minor <= 0 || Math.log(minor / unit) < start - 1e-9,
    ticks: ticks.map(tick => ({ at: place(tick * unit), label: labelled(tick) ? written(tick) : '' })),
  };
};
