import { gatherUp, thinned } from './gather-up.ts';
import type { EvidenceTree, Variances } from './pool-evidence.ts';

export interface SharedEffects {
  /** Best estimate of each column. */
  estimate: Float64Array;
  /** Lower triangle L of the posterior precision, L Lᵀ, by rows. */
  root: Float64Array;
  /** How many columns' worth the records tell: Σ of the share of each that is not held by its prior. */
  freedom: number;
  /** Posterior variance of each column. */
  variance: Float64Array;
}

/** Cholesky root of a symmetric positive definite matrix given by its upper triangle. */
const choleskyRoot = (matrix: Float64Array, size: number, stride: number): Float64Array => {
  const root = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[j * stride + i]!;
      for (let k = 0; k < j; k++) sum -= root[i * size + k]! * root[j * size + k]!;
      root[i * size + j] = i === j ? Math.sqrt(sum) : sum / root[j * size + j]!;
    }
  }
  return root;
};

/**
 * L⁻¹ b, by forward substitution. Its squared length is bᵀ (L Lᵀ)⁻¹ b, the variance of b's
 * combination of the effects.
 */
export const forward = (root: Float64Array, size: number, b: Float64Array): Float64Array => {
  const x = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= root[i * size + k]! * x[k]!;
    x[i] = sum / root[i * size + i]!;
  }
  return x;
};

const backward = (root: Float64Array, size: number, b: Float64Array): Float64Array => {
  const x = new Float64Array(size);
  for (let i = size - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let k = i + 1; k < size; k++) sum -= root[k * size + i]! * x[k]!;
    x[i] = sum / root[i * size + i]!;
  }
  return x;
};

export interface EffectsInput extends EvidenceTree {
  /** One row per sale: the columns, and last its log price. */
  rows: Float64Array;
  width: number;
  precision: Float64Array;
  variation: ArrayLike<number>;
  prior: Float64Array;
}

/**
 * Generalised least squares for the effects that all records share, with the variations, castings and series
 * as nested random effects and a normal prior about zero on each column: (XᵀV⁻¹X + Λ) β = XᵀV⁻¹y. V⁻¹ is
 * never formed: each level of the tree adds the spread of its nodes about their parent, weighted by the
 * precision with which they tell of it.
 * Source: Henderson (1975), Biometrics 31, best linear unbiased estimation; Searle, Casella & McCulloch,
 * Variance Components (1992), ch. 7.
 */
export const sharedEffects = (input: EffectsInput, variances: Variances): SharedEffects => {
  const { width, prior } = input;
  const size = width - 1;
  const scatter = new Float64Array(width * width);
  const v = gatherUp(
    { rows: input.rows, precision: input.precision, parent: input.variation },
    input.variationCasting.length,
    width,
    scatter,
  );
  const c = gatherUp(
    {
      rows: v.rows,
      precision: thinned(v.precision, variances.betweenVariations, input.variationApart),
      parent: input.variationCasting,
    },
    input.castingSeries.length,
    width,
    scatter,
  );
  const s = gatherUp(
    {
      rows: c.rows,
      precision: thinned(c.precision, variances.betweenCastings, input.castingApart),
      parent: input.castingSeries,
    },
    input.seriesCount,
    width,
    scatter,
  );
  const top = thinned(s.precision, variances.betweenSeries);
  for (let i = 0; i < top.length; i++) {
    for (let a = 0; a < width; a++) {
      const scaled = top[i]! * s.rows[i * width + a]!;
      for (let b = a; b < width; b++) scatter[a * width + b]! += scaled * s.rows[i * width + b]!;
    }
  }
  const right = new Float64Array(size);
  for (let a = 0; a < size; a++) {
    right[a] = scatter[a * width + size]!;
    scatter[a * width + a]! += prior[a]!;
  }
  const root = choleskyRoot(scatter, size, width);
  const estimate = backward(root, size, forward(root, size, right));
  let held = 0;
  const variance = new Float64Array(size);
  for (let a = 0; a < size; a++) {
    const unit = new Float64Array(size);
    unit[a] = 1;
    variance[a] = forward(root, size, unit).reduce((sum, x) => sum + x * x, 0);
    held += prior[a]! * variance[a]!;
  }
  return { estimate, root, freedom: size - held, variance };
};
