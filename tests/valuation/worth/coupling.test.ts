import { describe, expect, it } from 'vitest';
import { decideCar, defaultAssumptions, fitMarket, valueCar } from '../../../valuation/index.ts';
import { type FinishState, finishStates, grades } from '../../../valuation/words.ts';
import type { Condition } from '../../../valuation/worth/car-worths.ts';
import { couplingOf, covarianceOf, varianceApart } from '../../../valuation/worth/coupling.ts';
import { factorsAt } from '../../../valuation/worth/shared-factors.ts';
import { subjectPlace } from '../../../valuation/worth/subject-place.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';

const assumptions = defaultAssumptions('USD');
const { market, on } = simulateMarket({ seed: 7, series: 2, castingsPerSeries: 5 });
const fitted = fitMarket(market, assumptions, on);
const unrestored = market.sales.filter(
  ({ finishState }) => !['restored', 'customised'].includes(finishState),
);
const untold = fitMarket({ ...market, sales: unrestored }, assumptions, on);
const conditionOf = (state: FinishState, step: number): Condition => ({
  state,
  step,
  gradeKnown: true,
  partsLog: 0,
  fidelityLog: 0,
  attainable: true,
});
const known = subjectOf({ variationId: market.variations[3]!.id, grade: 4 });

describe('how two worths of a car go together', () => {
  it('is the fit’s own covariance, whichever way it is come by', () => {
    const couple = couplingOf(fitted, known, false);
    const place = subjectPlace(fitted, known)!;
    for (const [state, step] of [
      ['restored', 16],
      ['restored', 10],
      ['original', 7],
      ['stripped', 6],
    ] as const) {
      const a = factorsAt(fitted, place, 0, 6);
      const b = factorsAt(fitted, place, finishStates.indexOf(state), step);
      const wanted = covarianceOf(a, b, true);
      // The ladder is made to rise with grade, which may change a deviation by a little.
      expect(couple(conditionOf('original', 6), conditionOf(state, step)) / wanted).toBeCloseTo(1, 2);
    }
  });

  it('leaves open between two finish states at one grade just what the fit leaves open of their factor', () => {
    for (const market_ of [fitted, untold]) {
      const couple = couplingOf(market_, known, false);
      const a = conditionOf('original', 14);
      const b = conditionOf('restored', 14);
      const open = couple(a, a) + couple(b, b) - 2 * couple(a, b);
      expect(open / varianceApart(market_, a, b)).toBeCloseTo(1, 1);
    }
  });

  it('is far looser where no restored car was ever sold', () => {
    const ratioSd = (one: typeof fitted) => {
      const couple = couplingOf(one, known, false);
      const a = conditionOf('original', 6);
      const b = conditionOf('restored', 16);
      return Math.sqrt(couple(a, a) + couple(b, b) - 2 * couple(a, b));
    };
    // The assumption set holds a finish factor to 0.4 in logs.
    expect(ratioSd(untold)).toBeGreaterThan(0.4);
    expect(ratioSd(fitted)).toBeLessThan(0.3);
  });

  it('counts a doubt about the grade for both worths that rest on it, and for no other', () => {
    const couple = couplingOf(fitted, subjectOf({ variationId: known.variationId, grade: null }), false);
    const doubtful = (state: FinishState, step: number) => ({
      ...conditionOf(state, step),
      gradeKnown: false,
    });
    const sure = couple(conditionOf('original', 10), conditionOf('original', 11));
    expect(couple(doubtful('original', 10), doubtful('original', 11))).toBeGreaterThan(sure + 0.01);
    expect(couple(doubtful('original', 10), conditionOf('restored', 16))).toBe(
      couple(conditionOf('original', 10), conditionOf('restored', 16)),
    );
  });

  it('shares between the states of a car which of several it is', () => {
    const several = subjectOf({ castingId: market.castings[0]!.id, grade: 4 });
    const couple = couplingOf(fitted, several, false);
    const { asFound } = valueCar(fitted, several);
    const found = conditionOf('original', 6);
    expect(Math.sqrt(couple(found, found))).toBeCloseTo(asFound!.sharedSd, 9);
    expect(couple(found, conditionOf('restored', 6))).toBeGreaterThan(0.8 * asFound!.sharedSd ** 2);
    expect(grades[6]).toBe(4);
  });
});

describe('a decision without any sale of a restored car', () => {
  it('says that it rests on an assumption, and is less sure', () => {
    const reason = { kind: 'no-sale-of-state', state: 'restored' };
    expect(decideCar(untold, known).reasons).toContainEqual(reason);
    expect(decideCar(fitted, known).reasons).not.toContainEqual(reason);
  });

  it('is less sure of what its owner only guesses', () => {
    const guessed = subjectOf({ grade: 3, ownWorth: { low: 2900, mid: 3000, high: 3100 } });
    const { asFound, restored } = valueCar(untold, guessed);
    expect(asFound!.logSd).toBeLessThan(0.05);
    expect(restored!.logSd).toBeGreaterThan(0.4);
    const restoring = decideCar(untold, guessed).options.find(({ option }) => option === 'restore')!;
    expect(restoring.probability).toBeLessThan(0.9);
  });
});
