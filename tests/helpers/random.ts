import { normalQuantile } from '../../valuation/statistics/normal.ts';

export interface Random {
  /** Uniform in 0…1, both left out. */
  uniform: () => number;
  between: (low: number, high: number) => number;
  normal: (mean: number, sd: number) => number;
  /** A place among the weights, each as likely as it weighs. */
  pick: (weights: readonly number[]) => number;
}

/** A seeded source of random numbers: a 32-bit mixing counter (mulberry32), the same on every machine. */
export const seededRandom = (seed: number): Random => {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return (((t ^ (t >>> 14)) >>> 0) + 0.5) / 4294967296;
  };
  return {
    uniform,
    between: (low, high) => low + (high - low) * uniform(),
    normal: (mean, sd) => mean + sd * normalQuantile(uniform()),
    pick: weights => {
      let left = uniform() * weights.reduce((a, b) => a + b, 0);
      for (let i = 0; i < weights.length; i++) {
        left -= weights[i]!;
        if (left < 0) return i;
      }
      return weights.length - 1;
    },
  };
};
