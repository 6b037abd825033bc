import type { FittedMarket } from '../market/fitted-market.ts';
import type { Evidence } from '../types.ts';
import { evidenceKindsOf } from './evidence-kinds.ts';
import { gradeView } from './grade-view.ts';
import type { SubjectPlace } from './subject-place.ts';
import type { Ladder } from './worth-ladder.ts';

/**
 * What stands behind a worth of which nothing is known: no sales, and all of the estimate (share 1) from the
 * market at large.
 */
export const noEvidence = (): Evidence => ({
  sales: 0,
  castingSales: 0,
  seriesSales: 0,
  credibility: 0,
  shares: { variation: 0, casting: 0, series: 0, everything: 1 },
  doubtful: [],
});

/**
 * What an estimate at a grade step rests on: the numbers of sale records, and the shares of the pooling, z of
 * the variation, (1 − z) z' of its casting, (1 − z)(1 − z') z'' of its series, and the rest of all that there
 * is. Where nothing but the casting is known, no sale is one of "its variation": what its variations' own
 * sales tell then counts to the casting.
 */
export const evidenceOf = (
  fitted: FittedMarket,
  place: SubjectPlace,
  ladder: Ladder,
  step: number,
): Evidence => {
  const { index, evidence } = fitted.inside;
  const { variationSales, castingSales, seriesSales, castingDoubtful } = evidence;
  const { casting, variation, candidates } = place;
  const series = index.castingSeries[casting]!;
  const view = gradeView(fitted, step);
  const byVariations = ladder.credibility[step]!;
  const own = variation < 0 && candidates.length === 0 ? 0 : byVariations;
  const ofCasting = byVariations - own + (1 - byVariations) * view.credibility[casting]!;
  const ofSeries = (1 - own - ofCasting) * view.seriesCredibility[series]!;
  const sales =
    variation >= 0 ? variationSales[variation]! : candidates.reduce((sum, v) => sum + variationSales[v]!, 0);
  const shares = {
    variation: own,
    casting: ofCasting,
    series: ofSeries,
    everything: Math.max(0, 1 - own - ofCasting - ofSeries),
  };
  const kinds = evidenceKindsOf(fitted, place, shares, step);
  return {
    sales,
    castingSales: castingSales[casting]!,
    seriesSales: seriesSales[series]!,
    credibility: own,
    shares,
    doubtful: castingDoubtful.get(casting) ?? [],
    ...(kinds && { kinds }),
  };
};
