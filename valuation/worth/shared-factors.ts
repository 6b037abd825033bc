import { gradeStep } from '../market/assumed-curve.ts';
import { type FittedMarket, ownVariance } from '../market/fitted-market.ts';
import { columns } from '../market/market-columns.ts';
import type { Subject } from '../types.ts';
import { finishStates, grades } from '../words.ts';
import { cachedOn } from './cached-on.ts';
import { variationChances } from './explain-worth.ts';
import { gradeView } from './grade-view.ts';
import { poolAt } from './pool-at.ts';
import { ladderOf, type SubjectPlace, subjectPlace } from './subject-place.ts';
import { subjectCells } from './worth-ladder.ts';

const size = columns.count;

/** A car as far as its place in the market goes; its object is never changed. */
export type PlacedCar = Readonly<
  Pick<Subject, 'castingId' | 'variationId' | 'candidates' | 'grade' | 'finishState'>
>;

/** How something moves with what cars share: so much of each effect, and of its own place's levels. */
export interface SharedLoading {
  /** L⁻¹ × what it takes of the effects that all records share. */
  effects: Float64Array;
  /** −1 where the variation is not known. */
  variation: number;
  casting: number;
  series: number;
  ofVariation: number;
  ofCasting: number;
  ofSeries: number;
}

/**
 * What the log of a car's estimate shares with those of others: their covariance is effects · effects, and
 * for cars of one variation, casting or series the product of their factors there.
 */
export interface SharedFactors extends SharedLoading {
  /** The squares of all that stands above, added up: the variance that it shares. */
  variance: number;
  /**
   * What is left of the estimate's deviation: which of several variations it is. No other car shares it, but
   * the same car in another state does.
   */
  ofIdentity: number;
}

const build = (
  fitted: FittedMarket,
  place: SubjectPlace,
  { state, step }: { state: number; step: number },
): SharedFactors => {
  const { index, rarities } = fitted.inside;
  const { casting } = place;
  const view = gradeView(fitted, step);
  const effects = new Float64Array(size);
  const mix = new Float64Array(size + 1);
  const at = (state * grades.length + step) * size;
  let open = 0;
  for (const { variation, chance } of variationChances(fitted, place)) {
    const { zSure } = poolAt(fitted, { variation, casting, step }, mix);
    const cells = subjectCells(fitted).get(variation < 0 ? null : rarities[variation]!)!;
    for (let a = 0; a < size; a++) effects[a]! += chance * (cells[at + a]! - mix[a]!);
    open += chance * (1 - zSure);
  }
  const levels = {
    ofVariation: place.variation < 0 ? 0 : Math.sqrt(ownVariance(fitted, place.variation) * open),
    ofCasting: open * view.castingFactor[casting]!,
    ofSeries: open * view.seriesFactor[casting]!,
  };
  const told =
    effects.reduce((sum, x) => sum + x * x, 0) +
    Object.values(levels).reduce((sum, factor) => sum + factor * factor, 0);
  const all = ladderOf(fitted, place).shared[state * grades.length + step]! ** 2;
  return {
    effects,
    variation: place.variation,
    casting,
    series: index.castingSeries[casting]!,
    ...levels,
    variance: told,
    ofIdentity: place.variation < 0 ? Math.sqrt(Math.max(0, all - told)) : 0,
  };
};

/** So many are held; nearly a kilobyte each. */
const mostHeld = 3000;
const held = cachedOn<string, SharedFactors>(mostHeld);

/**
 * What the estimate of a car of a place shares with those of others, at a finish state and grade step; the
 * same object every time.
 */
export const factorsAt = (
  fitted: FittedMarket,
  place: SubjectPlace,
  state: number,
  step: number,
): SharedFactors => {
  const key = [place.casting, place.variation, place.candidates.join('.'), state, step].join(' ');
  return held(fitted, key, () => build(fitted, place, { state, step }));
};

/**
 * What the estimate of a car as it stands shares with those of others; null where nothing is known of what it
 * is.
 */
export const sharedFactors = (fitted: FittedMarket, car: PlacedCar): SharedFactors | null => {
  const place = subjectPlace(fitted, car);
  if (!place) return null;
  const state = finishStates.indexOf(car.finishState);
  const step = gradeStep(car.grade ?? fitted.assumptions.unknownGrade);
  return factorsAt(fitted, place, state, step);
};
