import type { IsoDate } from './types.ts';

const daysBefore = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
const isLeap = (year: number) => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/**
 * Days from 0000-03-01 or thereabouts to an ISO 8601 calendar date: differences of two are exact. No
 * clock, no time zone. Throws RangeError, naming the text, when it is no date of the Gregorian calendar
 * such as 1971-02-28.
 */
export const dayNumber = (date: IsoDate): number => {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  const [year, month, day] = match ? match.slice(1).map(Number) : [0, 0, 0];
  const length =
    month && month <= 12
      ? (daysBefore[month] ?? 365) - daysBefore[month - 1]! + (month === 2 && isLeap(year!) ? 1 : 0)
      : 0;
  if (!match || !day || day > length)
    throw new RangeError(`"${date}" is not a calendar date such as 1971-02-28`);
  const past = year! - 1;
  const leapDays = Math.floor(past / 4) - Math.floor(past / 100) + Math.floor(past / 400);
  return past * 365 + leapDays + daysBefore[month! - 1]! + (month! > 2 && isLeap(year!) ? 1 : 0) + day;
};

/**
 * Years of 365.25 days from one date to a later one; negative when it is earlier. Throws
 * RangeError on a bad date.
 */
export const yearsBetween = (from: IsoDate, to: IsoDate): number =>
  (dayNumber(to) - dayNumber(from)) / 365.25;

/** The calendar year of a `YYYY-MM-DD` date. */
export const yearOf = (date: IsoDate): number => Number(date.slice(0, 4));
