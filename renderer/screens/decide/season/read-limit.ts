/**
 * A limit as typed: null for none, undefined for what is no number from 0 to `ceiling`, or no whole one where
 * `whole` is asked. A comma may stand for the decimal point.
 */
export const readLimit = (
  text: string,
  { ceiling, whole }: { ceiling: number; whole: boolean },
): number | null | undefined => {
  const typed = text.trim().replace(',', '.');
  if (typed === '') return null;
  const number = Number(typed);
  const fits = number >= 0 && number <= ceiling && (!whole || Number.isInteger(number));
  return fits ? number : undefined;
};

/** The greatest amount that the service takes, in minor units. */
const mostMinor = 9_000_000_000_000_000;

/** The most cash that a season may have, in major units of a currency with so many minor units to each. */
export const mostCash = (unit: number): number => Math.floor(mostMinor / unit);
