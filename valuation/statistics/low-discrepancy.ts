/**
 * Degree s, coefficients a and first direction numbers m of the primitive polynomials of dimensions 2, 3, …;
 * dimension 1 needs none.
 * Source: Joe & Kuo (2008), SIAM Journal on Scientific Computing 30, new-joe-kuo-6 (from memory; the net's
 * properties are tested).
 */
const directions: readonly { s: number; a: number; m: readonly number[] }[] = [
  { s: 1, a: 0, m: [1] },
  { s: 2, a: 1, m: [1, 3] },
  { s: 3, a: 1, m: [1, 3, 1] },
  { s: 3, a: 2, m: [1, 1, 1] },
  { s: 4, a: 1, m: [1, 1, 3, 3] },
  { s: 4, a: 4, m: [1, 3, 5, 13] },
  { s: 5, a: 2, m: [1, 1, 5, 5, 17] },
  { s: 5, a: 4, m: [1, 1, 5, 5, 5] },
  { s: 5, a: 7, m: [1, 1, 7, 11, 19] },
  { s: 5, a: 11, m: [1, 1, 5, 1, 1] },
  { s: 5, a: 13, m: [1, 1, 1, 3, 11] },
  { s: 5, a: 14, m: [1, 3, 5, 5, 31] },
];

/** The most dimensions that `lowDiscrepancy` fills. */
export const mostDimensions = directions.length + 1;

/** Direction numbers of a dimension (from 0) as fractions of 2^bits. */
const directionNumbers = (dimension: number, bits: number): number[] => {
  if (dimension === 0) return Array.from({ length: bits }, (_, i) => 2 ** (bits - 1 - i));
  const { s, a, m } = directions[dimension - 1]!;
  const numbers = m.slice(0, bits).map((value, i) => value * 2 ** (bits - 1 - i));
  for (let i = numbers.length; i < bits; i++) {
    let next = numbers[i - s]! ^ (numbers[i - s]! >>> s);
    for (let k = 1; k < s; k++) if ((a >>> (s - 1 - k)) & 1) next ^= numbers[i - k]!;
    numbers.push(next);
  }
  return numbers;
};

/** A whole number mixed so that nearby seeds and dimensions have nothing in common (Murmur's finaliser). */
const mixed = (value: number): number => {
  let x = value | 0;
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return (x ^ (x >>> 16)) >>> 0;
};

/**
 * `count` points in the open unit cube, evenly spread: Sobol's net with a digital shift drawn from the seed,
 * each point in the middle of its cell, so that every dimension holds each of (i + ½)/count once. Returned by
 * dimension. The same arguments give the same points, and a dimension does not depend on how many there are.
 *
 * Throws RangeError unless count is a power of two up to 2^20, dimensions lie in 1…`mostDimensions` and
 * the seed is whole.
 * Source: Sobol' (1967), USSR Computational Mathematics 7.
 */
export const lowDiscrepancy = (count: number, dimensions: number, seed = 1): Float64Array[] => {
  const bits = Math.log2(count);
  if (!Number.isInteger(bits) || bits < 0 || bits > 20)
    throw new RangeError(`count must be a power of two up to 2^20, not ${count}`);
  if (!Number.isInteger(dimensions) || dimensions < 1 || dimensions > mostDimensions)
    throw new RangeError(`dimensions must lie between 1 and ${mostDimensions}, not at ${dimensions}`);
  if (!Number.isSafeInteger(seed)) throw new RangeError(`seed must be a whole number, not ${seed}`);
  return Array.from({ length: dimensions }, (_, dimension) => {
    const numbers = directionNumbers(dimension, bits);
    const shift = mixed(seed * 31 + dimension + 1) % count;
    return Float64Array.from({ length: count }, (_, i) => {
      let cell = shift;
      for (let bit = 0; bit < bits; bit++) if ((i >>> bit) & 1) cell ^= numbers[bit]!;
      return (cell + 0.5) / count;
    });
  });
};
