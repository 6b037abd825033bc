import type { FittedMarket } from '../market/fitted-market.ts';
import type { PreparedSale } from '../market/prepare-sales.ts';
import { eightyPercent } from '../statistics/normal.ts';
import { grades } from '../words.ts';
import { type Diagnostics, diagnostics } from './diagnostics.ts';

const steps = grades.length;

/** A belief against the sales that have come since. */
export interface HeldBelief {
  beliefId: number;
  /**
   * Each sale since the belief of what it is about, brought to the belief's grade and finish,
   * against its range.
   */
  against: Diagnostics;
}

/**
 * Holds each belief that counts against the sale records of the days after it: of its variation, casting or
 * series, each brought to the belief's grade, finish state, completeness and rarity by the fitted factors.
 * The same measures and verdicts as `diagnostics`.
 */
export const heldBeliefs = (fitted: FittedMarket): HeldBelief[] => {
  const { sales, saleRarity, tree, curve, timeLog, slots } = fitted.inside;
  const brought = (sale: PreparedSale) => sale.price + sale.dateLog + timeLog(sale.age);
  return sales.flatMap((belief, b): HeldBelief[] => {
    const { from } = belief;
    if (from?.kind !== 'belief') return [];
    const series = tree.castingSeries[belief.casting]!;
    const isAbout = (sale: PreparedSale, i: number) =>
      from.level === 'variation'
        ? slots[i] === belief.variation
        : from.level === 'casting'
          ? sale.casting === belief.casting
          : tree.castingSeries[sale.casting] === series;
    const at = (sale: PreparedSale) => curve[sale.state * steps + sale.step]!;
    const mid = brought(belief);
    const half = eightyPercent * Math.sqrt(belief.range);
    const past = sales.flatMap((sale, i) => {
      if (sale.from || sale.record.soldOn <= belief.record.soldOn || !isAbout(sale, i)) return [];
      const log = brought(sale) - sale.partsLog + at(belief) - at(sale) + saleRarity[b]! - saleRarity[i]!;
      return [
        {
          low: Math.exp(mid - half),
          mid: Math.exp(mid),
          high: Math.exp(mid + half),
          realised: Math.exp(log),
        },
      ];
    });
    return [{ beliefId: from.beliefId, against: diagnostics(past) }];
  });
};
