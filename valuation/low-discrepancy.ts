/** The number g with g^(d+1) = g + 1, whose powers fill d dimensions most evenly. */
const harmonious = (dimensions: number): number => {
  let g = 2;
  for (let i = 0; i < 60; i++) g = (1 + g) ** (1 / (dimensions + 1));
  return g;
};

/**
 * `count` points in the open unit cube, evenly spread: point i has coordinate frac(seed shift + (i + 1) g^−k) in dimension k, where
 * g^(d+1) = g + 1 (an additive recurrence with the generalised golden ratio). The same arguments give the same points.
 * Returned by dimension, each a list of `count`. Source: Roberts (2018), "The unreasonable effectiveness of quasirandom sequences";
 * Weyl (1916) for the even spread.
 */
export const lowDiscrepancy = (count: number, dimensions: number, seed = 1): Float64Array[] => {
  if (!Number.isInteger(count) || count < 1) throw new RangeError(`count must be at least 1, not ${count}`);
  if (!Number.isInteger(dimensions) || dimensions < 1)
    throw new RangeError(`dimensions must be at least 1, not ${dimensions}`);
  if (!Number.isFinite(seed)) throw new RangeError(`seed must be a finite number, not ${seed}`);
  const g = harmonious(dimensions);
  return Array.from({ length: dimensions }, (_, k) => {
    const stride = g ** -(k + 1);
    // The square roots of odd numbers tell the dimensions' shifts apart.
    const shift = seed === 1 ? 0.5 : Math.abs(Math.sin(seed * Math.sqrt(2 * k + 3)) * 1e4);
    return Float64Array.from({ length: count }, (_, i) => {
      const x = (shift + (i + 1) * stride) % 1;
      return Math.min(1 - 1e-12, Math.max(1e-12, x));
    });
  });
};
