import { checkFinite } from '../statistics/check-input.ts';

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
 * series[from].
 * Throws RangeError on an empty series, a year that it does not hold, and a level that is not a number above
 * zero.
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
