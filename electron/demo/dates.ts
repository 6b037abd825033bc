import type { IsoDate } from '../../valuation/types.ts';

/** The demo's own today: every worth in it is of this day. */
export const demoDate: IsoDate = '2026-10-31';

const msPerDay = 86_400_000;

/** The date so many days later; days are rounded to whole ones. */
export const addDays = (date: IsoDate, days: number): IsoDate =>
  new Date(Date.parse(date) + Math.round(days) * msPerDay).toISOString().slice(0, 10);

/** Whole days from one date to another, negative where `to` is earlier. */
export const daysBetween = (from: IsoDate, to: IsoDate): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / msPerDay);

/** Years of 365.25 days from one date to another. */
export const yearsBetween = (from: IsoDate, to: IsoDate): number => daysBetween(from, to) / 365.25;

/** An instant on a day, in UTC, as the collection keeps them. */
export const instant = (date: IsoDate, minutes = 0): string =>
  new Date(Date.parse(date) + (18 * 60 + minutes) * 60_000).toISOString();
