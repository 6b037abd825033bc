import { type FittedMarket, ownVariance, variancesOf } from '../market/fitted-market.ts';
import { columns } from '../market/market-columns.ts';
import { gradeView, nearness, salesByVariation } from './grade-view.ts';

const width = columns.count + 1;

/**
 * How far a variation's own sales carry its estimate: in the mean, and in how sure it
 * is (see `FitInside.certainty`).
 */
export interface OwnShare {
  z: number;
  zSure: number;
}

/**
 * What the estimate of a variation (−1: an unknown one of the casting) rests on, as seen from a grade step:
 * into `mix` (`columns.count + 1` long) go the L⁻¹ columns, and last the log residual, of its own sales by z
 * and of its casting by 1 − z.
 */
export const poolAt = (
  fitted: FittedMarket,
  { variation, casting, step }: { variation: number; casting: number; step: number },
  mix: Float64Array,
): OwnShare => {
  const { sales, rows, weights, certainty } = fitted.inside;
  const { within } = variancesOf(fitted);
  const betweenVariations = ownVariance(fitted, variation);
  const near = nearness(fitted);
  const { start, order } = salesByVariation(fitted);
  const view = gradeView(fitted, step);
  let precision = 0;
  let sure = 0;
  mix.fill(0);
  for (let k = variation < 0 ? 0 : start[variation]!; k < (variation < 0 ? 0 : start[variation + 1]!); k++) {
    const i = order[k]!;
    const close = near[Math.abs(sales[i]!.step - step)]!;
    const q = (weights[i]! * close) / within;
    precision += q;
    sure += (certainty[i]! * close) / within;
    for (let a = 0; a < width; a++) mix[a]! += q * rows[i * width + a]!;
  }
  const z = (precision * betweenVariations) / (1 + precision * betweenVariations);
  const share = precision > 0 ? z / precision : 0;
  for (let a = 0; a < width; a++) mix[a] = share * mix[a]! + (1 - z) * view.rows[casting * width + a]!;
  return { z, zSure: (sure * betweenVariations) / (1 + sure * betweenVariations) };
};
