/** Seeded randomness for the demo: the same seed text gives the same run on every machine. */
export interface Random {
  /** Uniform in [0, 1). */
  next(): number;
  between(low: number, high: number): number;
  /** Whole number in [low, high]. */
  whole(low: number, high: number): number;
  chance(probability: number): boolean;
  pick<T>(items: readonly T[]): T;
  /** One item, each as likely as its weight. */
  weighted<T>(items: readonly T[], weights: readonly number[]): T;
  /** Normal deviate by the polar method. */
  normal(mean?: number, sd?: number): number;
  shuffle<T>(items: readonly T[]): T[];
}

/** FNV-1a hash of a text, 32 bits. */
const hashText = (text: string): number => {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
};

/**
 * A generator (mulberry32) for a seed text; each purpose takes its own, so that adding one leaves the
 * others as they are.
 */
export const randomFrom = (seed: string): Random => {
  let state = hashText(seed);
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const whole = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  const normal = (mean = 0, sd = 1): number => {
    for (;;) {
      const u = 2 * next() - 1;
      const v = 2 * next() - 1;
      const s = u * u + v * v;
      if (s > 0 && s < 1) return mean + sd * u * Math.sqrt((-2 * Math.log(s)) / s);
    }
  };
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    whole,
    chance: probability => next() < probability,
    pick: items => items[whole(0, items.length - 1)]!,
    weighted: (items, weights) => {
      let left = next() * weights.reduce((sum, weight) => sum + weight, 0);
      for (let i = 0; i < items.length; i++) {
        left -= weights[i]!;
        if (left < 0) return items[i]!;
      }
      return items[items.length - 1]!;
    },
    normal,
    shuffle: items => {
      const copy = [...items];
      for (let i = copy.length - 1; i > 0; i--) {
        const j = whole(0, i);
        [copy[i], copy[j]] = [copy[j]!, copy[i]!];
      }
      return copy;
    },
  };
};
