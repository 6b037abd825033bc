/** Other names of kinds of source. Common practice, no source. */
const otherNames: ReadonlyMap<string, string> = new Map([
  ['asking', 'listing'],
  ['asking price', 'listing'],
]);

/** The kind of a source as the assumptions name it: what is asked for a car is the price of a listing; any other as it stands. */
export const sourceKind = (source: string): string => otherNames.get(source.trim().toLowerCase()) ?? source;

/**
 * How far sales of a source are trusted, 0 to 1: by the owner's own name for it, else by its kind, else as `other`,
 * else wholly.
 */
export const trustIn = (source: string, reliability: Readonly<Record<string, number>>): number => {
  const key = [source, sourceKind(source), 'other'].find(name => Object.hasOwn(reliability, name));
  return key === undefined ? 1 : (reliability[key] ?? 1);
};
