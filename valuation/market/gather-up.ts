/**
 * One level of a tree: a row of figures and a precision for each node, and the place of each node's parent.
 */
export interface LevelRows {
  rows: Float64Array;
  precision: Float64Array;
  parent: ArrayLike<number>;
}

/**
 * Precision-weighted mean of each parent's children, row by row, with the sum of their precisions; a parent
 * without children has a row of zeros and no precision. With `scatter` (width × width, upper triangle), the
 * children's spread about their parent, Σ q (x − x̄)(x − x̄)ᵀ, is added to it: what this level alone tells of
 * the effects that all share.
 */
export const gatherUp = (
  { rows, precision, parent }: LevelRows,
  parents: number,
  width: number,
  scatter?: Float64Array,
): { rows: Float64Array; precision: Float64Array } => {
  const means = new Float64Array(parents * width);
  const sums = new Float64Array(parents);
  // A record has few of the columns, so that only pairs of those that it has are gone through.
  const told = new Int32Array(width);
  const spread = (from: Float64Array, at: number, weight: number) => {
    if (!scatter) return;
    let count = 0;
    for (let a = 0; a < width; a++) if (from[at + a] !== 0) told[count++] = a;
    for (let i = 0; i < count; i++) {
      const a = told[i]!;
      const scaled = weight * from[at + a]!;
      for (let j = i; j < count; j++) scatter[a * width + told[j]!]! += scaled * from[at + told[j]!]!;
    }
  };
  for (let i = 0; i < precision.length; i++) {
    const q = precision[i]!;
    if (q === 0) continue;
    const to = parent[i]! * width;
    const at = i * width;
    sums[parent[i]!]! += q;
    for (let a = 0; a < width; a++) means[to + a]! += q * rows[at + a]!;
    spread(rows, at, q);
  }
  for (let p = 0; p < parents; p++) {
    const sum = sums[p]!;
    if (sum === 0) continue;
    for (let a = 0; a < width; a++) means[p * width + a]! /= sum;
    spread(means, p * width, -sum);
  }
  return { rows: means, precision: sums };
};

/**
 * Precision with which a node tells of its parent: 1 / (variance of the node about its parent + 1 / its own
 * precision). `apart` is 0 for the nodes that never depart from their parent, and 1 for the others; without
 * it all of them do.
 */
export const thinned = (precision: Float64Array, variance: number, apart?: Float64Array): Float64Array =>
  apart
    ? precision.map((q, i) => q / (1 + variance * apart[i]! * q))
    : precision.map(q => q / (1 + variance * q));
