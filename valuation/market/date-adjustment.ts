import { yearOf } from '../calendar.ts';
import { checkFinite } from '../statistics/check-input.ts';
import type { AssumptionSet, IsoDate } from '../types.ts';
import { cpiU } from './cpi-u.ts';

const levelIn = (series: Readonly<Record<number, number>>, year: number, name: string): number => {
  if (!Number.isInteger(year)) throw new RangeError(`${name} must be a whole year, not ${String(year)}`);
  if (!Object.hasOwn(series, year)) {
    const years = Object.keys(series).map(Number);
    throw new RangeError(
      `${name} ${year} is not in the series, which holds ${Math.min(...years)} to ${Math.max(...years)}`,
    );
  }
  const level = series[year]!;
  checkFinite(level, `series[${year}]`);
  if (level <= 0) throw new RangeError(`series[${year}] must be above zero, not ${level}`);
  return level;
};

/**
 * Factor by which prices rose from one year to another by an index series of yearly levels: series[to] /
 * series[from]. Throws RangeError on an empty series, a year that it does not hold, and a level that is not a
 * number above zero.
 */
export const indexFactor = (
  series: Readonly<Record<number, number>>,
  fromYear: number,
  toYear: number,
): number => {
  if (typeof series !== 'object' || series === null || Object.keys(series).length === 0)
    throw new RangeError('series must not be empty');
  return levelIn(series, toYear, 'toYear') / levelIn(series, fromYear, 'fromYear');
};

/**
 * A series of yearly levels, from the year of a sale to that of the effective date, each the
 * nearest that it holds.
 */
export interface IndexSpan {
  series: 'cpi-u' | 'own';
  from: number;
  to: number;
}

export interface DateAdjustment {
  /** Log of the factor that brings a price of that day to the effective date. */
  log: (soldOn: IsoDate) => number;
  /** The series and the years that it was brought between; null where no index is given. */
  span: (soldOn: IsoDate) => IndexSpan | null;
}

/** The year of a series nearest to the wanted one: a series that ends early holds its last figure. */
const nearestYear = (series: Readonly<Record<number, number>>, year: number): number => {
  const years = Object.keys(series).map(Number);
  if (years.length === 0) throw new RangeError('index series must hold at least one year');
  return years.reduce((best, y) => (Math.abs(y - year) < Math.abs(best - year) ? y : best));
};

/**
 * Adjustment of prices for date by a yearly index: CPI-U, or the owner's series. Factor = index of the year
 * of `on` / index of the year of sale; a year outside the series takes its nearest. "none" and "trend" (which
 * is fitted, not given) adjust nothing here. Throws RangeError on an empty series or one with a figure that
 * is not above zero.
 */
export const dateAdjustment = (index: AssumptionSet['index'], on: IsoDate): DateAdjustment => {
  if (index !== 'cpi-u' && typeof index === 'string') return { log: () => 0, span: () => null };
  const series = index === 'cpi-u' ? cpiU : index.series;
  const to = nearestYear(series, yearOf(on));
  const from = new Map<number, { year: number; log: number }>();
  const of = (soldOn: IsoDate) => {
    const wanted = yearOf(soldOn);
    const known = from.get(wanted);
    if (known) return known;
    const year = nearestYear(series, wanted);
    const found = { year, log: Math.log(indexFactor(series, year, to)) };
    from.set(wanted, found);
    return found;
  };
  return {
    log: soldOn => of(soldOn).log,
    span: soldOn => ({ series: index === 'cpi-u' ? 'cpi-u' : 'own', from: of(soldOn).year, to }),
  };
};
