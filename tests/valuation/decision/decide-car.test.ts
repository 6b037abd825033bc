import { describe, expect, it } from 'vitest';
import {
  decideCar,
  defaultAssumptions,
  fitMarket,
  planFromCar,
  standardPlan,
  valueCar,
} from '../../../valuation/index.ts';
import type { AssumptionSet, RestorationPlan } from '../../../valuation/types.ts';
import { on, saleOf, subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { seededRandom } from '../../helpers/random.ts';

/**
 * A market of one casting with a common, a scarce and a rare variation that all sell well, a common
 * C10 at about 200.
 */
const random = seededRandom(4);
const market = {
  reportingCurrency: 'USD',
  castings: [{ id: 1, seriesId: 1 }],
  variations: [
    { id: 1, castingId: 1, rarity: 'common' as const },
    { id: 2, castingId: 1, rarity: 'scarce' as const },
    { id: 3, castingId: 1, rarity: 'rare' as const },
  ],
  sales: Array.from({ length: 60 }, (_, i) => {
    const grade = 3 + (i % 14) / 2;
    const price = 20_000 * Math.exp(-0.28 * (10 - grade) + random.normal(0, 0.15));
    return saleOf({
      id: i + 1,
      variationId: (i % 3) + 1,
      grade,
      price: Math.round(price * [1, 2, 4][i % 3]!),
    });
  }),
  rates: [],
};
const assumptions = defaultAssumptions('USD');
const fittedWith = (change: Partial<AssumptionSet> = {}) =>
  fitMarket(market, { ...assumptions, ...change }, on);
const fitted = fittedWith();
const car = (known: Parameters<typeof subjectOf>[0]) => subjectOf({ variationId: 1, grade: 3, ...known });

describe('decideCar', () => {
  it('restores a rough common car, and says why', () => {
    const decision = decideCar(fitted, car({}));
    expect(decision.recommendation).toBe('restore');
    expect(decision.expectedGain).toBeGreaterThan(assumptions.decision.leastGain);
    const { expectedGain, probability, cost, breakEven } = decision;
    expect(decision.reasons).toEqual([
      { kind: 'gain', option: 'restore', expectedGain, probability, cost, afterFees: true },
      {
        kind: 'break-even',
        option: 'restore',
        recommended: true,
        worth: breakEven?.restoredWorth,
        cost: breakEven?.cost,
      },
      { kind: 'no-sale-of-state', state: 'restored' },
      { kind: 'plan-from-car' },
      { kind: 'deviations', deviations: assumptions.standardPlan.restore.deviations },
      { kind: 'evidence', evidence: expect.objectContaining({ sales: 20 }) },
    ]);
  });

  it('keeps an original at the keep-grade from paint and names the guard: conserve or leave', () => {
    for (const grade of [7, 7.5, 9, 10]) {
      const decision = decideCar(fitted, car({ grade }));
      expect(['leave', 'conserve']).toContain(decision.recommendation);
      const restore = decision.options.find(({ option }) => option === 'restore')!;
      expect(restore.guards.map(({ kind }) => kind)).toEqual(['keep-grade']);
      expect(decision.reasons).toContainEqual({ kind: 'guard', guard: restore.guards[0] });
      expect(restore.guards[0]).toMatchObject({ finish: grade, keepGrade: 7 });
      expect(decision.breakEven).toBeNull();
    }
    expect(decideCar(fitted, car({ grade: 6.5 })).options[2]!.guards).toEqual([]);
    expect(decideCar(fitted, car({ grade: 8, finishState: 'restored' })).options[2]!.guards).toEqual([]);
  });

  it('keeps an ungraded original from paint until it is graded, and goes by the body finish where that is better', () => {
    const restoreOf = (known: Parameters<typeof car>[0]) =>
      decideCar(fitted, car(known)).options.find(({ option }) => option === 'restore')!;
    expect(restoreOf({ grade: null }).guards[0]).toMatchObject({ finish: null, keepGrade: 7 });
    const body = (grade: number, originality: 'original' | 'reproduction') => [
      { part: 'body finish' as const, grade, originality },
    ];
    expect(restoreOf({ grade: 4, parts: body(8, 'original') }).guards[0]).toMatchObject({ finish: 8 });
    expect(restoreOf({ grade: 4, parts: body(5, 'original') }).guards).toEqual([]);
    expect(restoreOf({ grade: null, parts: body(5, 'original') }).guards).toEqual([]);
    expect(restoreOf({ grade: 4, parts: body(9, 'reproduction') }).guards).toEqual([]);
  });

  it('keeps scarce and rare variations from paint while factory finish is left on them', () => {
    for (const variationId of [2, 3])
      for (const finishState of ['original', 'touched up'] as const) {
        const decision = decideCar(fitted, car({ variationId, finishState }));
        expect(['leave', 'conserve', 'donor']).toContain(decision.recommendation);
        expect(decision.options[2]!.guards.map(({ kind }) => kind)).toEqual(['rarity']);
      }
    expect(decideCar(fitted, car({ variationId: 3, finishState: 'stripped' })).recommendation).toBe(
      'restore',
    );
    const either = decideCar(fitted, car({ variationId: null, candidates: [1, 3] }));
    expect(either.options[2]!.guards[0]).toMatchObject({ identified: false, rarities: ['rare'] });
  });

  it('yields to the owner who overrules a guard with a reason, and shows both', () => {
    const overruled = [{ guard: 'rarity' as const, reason: 'The finish is past saving' }];
    const decision = decideCar(fitted, car({ variationId: 2, overruled }));
    expect(decision.recommendation).toBe('restore');
    const [guard] = decision.options[2]!.guards;
    expect(guard).toMatchObject({
      kind: 'rarity',
      overruled: true,
      reason: 'The finish is past saving',
    });
    const empty = [{ guard: 'rarity' as const, reason: '  ' }];
    expect(decideCar(fitted, car({ variationId: 2, overruled: empty })).recommendation).not.toBe('restore');
  });

  it('leaves what would pay too little or too seldom, and says which', () => {
    const { decision } = assumptions;
    const dear = fittedWith({ decision: { ...decision, leastGain: 1_000_000 } });
    const little = decideCar(dear, car({}));
    expect(little).toMatchObject({ recommendation: 'leave', best: 'restore' });
    expect(little.expectedGain).toBeGreaterThan(0);
    expect(little.reasons).toContainEqual({ kind: 'under-least-gain', leastGain: 1_000_000 });
    expect(little.reasons).toContainEqual(
      expect.objectContaining({ kind: 'break-even', recommended: false }),
    );
    const sure = fittedWith({ decision: { ...decision, leastProbability: 1 } });
    const seldom = decideCar(sure, car({ grade: 4 }));
    expect(seldom.recommendation).toBe('leave');
    expect(seldom.reasons).toContainEqual({ kind: 'under-least-probability', leastProbability: 1 });
  });

  it('adds up plans of more lines than the sample has dimensions', () => {
    const line = { name: 'x', kind: 'part' as const, cost: { low: 5, likely: 10, high: 30 } };
    const plan = { ...standardPlan(car({}), assumptions), lines: new Array(25).fill(line) };
    const { cost } = decideCar(fitted, car({ plan })).options[2]!;
    // Mean 12.5 and variance 7.5 × 17.5 / 7 each.
    const sd = Math.sqrt((25 * 7.5 * 17.5) / 7);
    expect(Math.abs(cost.mid - 312)).toBeLessThan(4);
    expect(Math.abs((cost.high - cost.low) / 2 / 1.2816 / sd - 1)).toBeLessThan(0.15);
  });

  it('leaves where nothing pays, with no gain to show and the cost of the plan', () => {
    const leaveIt = decideCar(fitted, car({ grade: 10, finishState: 'restored' }));
    expect(leaveIt).toMatchObject({
      recommendation: 'leave',
      expectedGain: 0,
      probability: 0,
      best: 'leave',
    });
    expect(leaveIt.cost.mid).toBeGreaterThan(0);
    expect(leaveIt.reasons).toContainEqual({ kind: 'nothing-pays' });
  });

  it('uses a stripped wreck that lost its parts as a donor when painting is dear', () => {
    const costly: RestorationPlan = {
      ...standardPlan(car({}), assumptions),
      lines: [{ name: 'plating', kind: 'other', cost: { low: 20_000, likely: 30_000, high: 40_000 } }],
    };
    const generous = fittedWith({ decision: { ...assumptions.decision, donorShare: 0.6 } });
    const decision = decideCar(generous, car({ grade: 1, finishState: 'stripped', plan: costly }));
    expect(decision.recommendation).toBe('donor');
    expect(decision.reasons[0]).toMatchObject({ kind: 'gain', option: 'donor' });
  });

  it('proposes customising only where the owner has planned it, and shows it for comparison elsewhere', () => {
    const factors = { ...assumptions.finishFactors, restored: 0.3, customised: 0.9 };
    const custom = fittedWith({ finishFactors: factors });
    const unplanned = decideCar(custom, car({}));
    const compared = unplanned.options.find(({ option }) => option === 'customise')!;
    expect(compared.note).toBe('only-compared');
    expect(compared.expectedGain).toBeGreaterThan(unplanned.expectedGain);
    expect(unplanned.recommendation).not.toBe('customise');
    const plan = standardPlan(car({}), assumptions, 'customise');
    const planned = decideCar(custom, car({ plan }));
    expect(planned.recommendation).toBe('customise');
    expect(planned.options.every(({ note }) => note === undefined)).toBe(true);
  });

  it('counts the hours at what they cost the owner', () => {
    const free = decideCar(fitted, car({}));
    const paid = decideCar(fittedWith({ hourlyRate: 3000 }), car({}));
    const { hours } = planFromCar(car({}), assumptions);
    const mean = (hours.low + 4 * hours.likely + hours.high) / 6;
    const gain = (d: typeof free) => d.options[2]!.expectedGain;
    expect(Math.abs(gain(free) - gain(paid) - mean * 3000)).toBeLessThanOrEqual(1);
  });

  it('says that there is not enough evidence rather than a number, and takes the owner’s figure where there is one', () => {
    const unknown = decideCar(fitted, subjectOf({}));
    expect(unknown).toMatchObject({ recommendation: 'not-enough-evidence', options: [], breakEven: null });
    expect(unknown.reasons).toEqual([
      { kind: 'not-enough-evidence' },
      { kind: 'help', help: 'identify' },
      { kind: 'help', help: 'own-figure' },
    ]);
    const own = decideCar(fitted, subjectOf({ grade: 3, ownWorth: { low: 1500, mid: 2500, high: 4000 } }));
    expect(own.recommendation).not.toBe('not-enough-evidence');
    expect(own.reasons.at(-1)).toEqual({ kind: 'own-figure' });
  });

  it('has a tornado, widest first, that flips where the recommendation would', () => {
    const { tornado } = decideCar(fitted, car({}));
    expect(tornado.map(({ input }) => input).sort()).toEqual([
      'cost',
      'selling-costs',
      'spoil-chance',
      'worth-afterwards',
      'worth-as-found',
    ]);
    const widths = tornado.map(({ low, high }) => Math.abs(high - low));
    expect(widths).toEqual([...widths].sort((a, b) => b - a));
    const bar = (input: string) => tornado.find(one => one.input === input)!;
    expect(bar('worth-afterwards').high).toBeGreaterThan(bar('worth-afterwards').low);
    expect(bar('cost').high).toBeLessThan(bar('cost').low);
    expect(bar('worth-as-found').high).toBeLessThan(bar('worth-as-found').low);
    const margin = decideCar(
      fittedWith({
        decision: { ...assumptions.decision, leastGain: decideCar(fitted, car({})).expectedGain - 50 },
      }),
      car({}),
    );
    expect(margin.recommendation).toBe('restore');
    expect(margin.tornado.find(({ input }) => input === 'cost')!.flips).toBe(true);
  });

  it('spoils: a likelier or worse spoiling lowers the gain by just what it destroys', () => {
    const plan = (spoilChance: number, spoiledShare: number) => ({
      ...standardPlan(car({}), assumptions),
      spoilChance,
      spoiledShare,
    });
    const gain = (p: RestorationPlan) => decideCar(fitted, car({ plan: p })).options[2]!.expectedGain;
    const { asFound, restored } = valueCar(fitted, car({}));
    const mean = (w: typeof asFound) => Math.exp(w!.logMean + w!.logSd ** 2 / 2);
    const fees = assumptions.decision.sellingFees;
    expect(
      Math.abs(
        gain(plan(0, 0.4)) - gain(plan(0.1, 0.4)) - 0.1 * (1 - fees) * (mean(restored) - 0.4 * mean(asFound)),
      ),
    ).toBeLessThan(2);
    expect(gain(plan(0.1, 0.1))).toBeLessThan(gain(plan(0.1, 0.5)));
  });

  it('refuses a plan whose costs are out of order', () => {
    const plan = {
      ...standardPlan(car({}), assumptions),
      lines: [{ name: 'x', kind: 'part' as const, cost: { low: 5, likely: 1, high: 9 } }],
    };
    expect(() => decideCar(fitted, car({ plan }))).toThrow(RangeError);
  });
});
