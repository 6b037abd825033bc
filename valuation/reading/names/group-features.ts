/**
 * What was seen of a car, by feature, each text as texts are compared; a feature of which nothing
 * was said is absent.
 */
export type SeenFeatures = Readonly<Record<string, string>>;

export interface FeatureGroup {
  /** Place of what is told most fully, among what was given. */
  fullest: number;
  /** Places of what says less of the same, and of nothing else that was seen. */
  lesser: number[];
}

const saysLess = (one: SeenFeatures, other: SeenFeatures): boolean => {
  const own = Object.entries(one);
  return own.length < Object.keys(other).length && own.every(([feature, text]) => other[feature] === text);
};

/**
 * Groups different sets of features: each that no other tells more fully is one group, with those that say
 * less of it alone. What could be several of them belongs to none.
 */
export const groupFeatures = (seen: readonly SeenFeatures[]): FeatureGroup[] => {
  const fullest = seen.flatMap((one, at) => (seen.some(other => saysLess(one, other)) ? [] : [at]));
  const groups = new Map(fullest.map(at => [at, [] as number[]]));
  for (const [at, one] of seen.entries()) {
    if (groups.has(at)) continue;
    const [first, another] = fullest.filter(place => saysLess(one, seen[place]!));
    if (first !== undefined && another === undefined) groups.get(first)?.push(at);
  }
  return [...groups].map(([place, lesser]) => ({ fullest: place, lesser }));
};
