import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decideCar,
  defaultAssumptions,
  finishStates,
  fitMarket,
  grades,
  originalities,
  partNames,
  recommendCar,
  type Subject,
  standardPlan,
} from '../../../valuation/index.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';

const { market, on } = simulateMarket({ seed: 11, series: 2, castingsPerSeries: 5 });
const fitted = fitMarket(market, defaultAssumptions('USD'), on);

const subjects: fc.Arbitrary<Subject> = fc
  .record({
    known: fc.integer({ min: 0, max: 4 }),
    place: fc.nat(market.variations.length - 1),
    grade: fc.option(fc.constantFrom(...grades)),
    finishState: fc.constantFrom(...finishStates),
    parts: fc.uniqueArray(
      fc.record({
        part: fc.constantFrom(...partNames),
        originality: fc.constantFrom(...originalities),
        grade: fc.constant(null),
      }),
      { selector: part => part.part, maxLength: 3 },
    ),
    planned: fc.constantFrom(null, 'restore' as const, 'customise' as const),
    overruled: fc.boolean(),
  })
  .map(({ known, place, planned, overruled, ...rest }) => {
    const variation = market.variations[place]!;
    const subject: Subject = {
      id: 1,
      castingId: known > 0 ? variation.castingId : null,
      variationId: known > 1 ? variation.id : null,
      candidates: [],
      plan: null,
      ownWorth: null,
      ...rest,
      ...(overruled && { overruled: [{ guard: 'rarity' as const, reason: 'its finish is gone' }] }),
    };
    const plan = planned && standardPlan(subject, fitted.assumptions, planned);
    return { ...subject, plan: plan && { ...plan, targetGrade: 8 } };
  });

describe('recommendCar', () => {
  it('says what decideCar says, figure by figure', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(subjects, subject => {
        const quick = recommendCar(fitted, subject);
        const whole = decideCar(fitted, subject);
        seen.add(quick.recommendation);
        expect(quick.recommendation).toBe(whole.recommendation);
        if (quick.recommendation === 'not-enough-evidence') {
          expect(quick).toEqual({
            recommendation: 'not-enough-evidence',
            expectedGain: null,
            probability: null,
            plan: null,
            options: [],
            guards: [],
          });
          return;
        }
        expect(quick.expectedGain).toBe(whole.expectedGain);
        expect(quick.probability).toBe(whole.probability);
        const planned = subject.plan?.kind ?? 'restore';
        expect(quick.options).toEqual(
          whole.options
            .filter(({ option }) => option !== 'leave')
            .map(({ option, expectedGain, probability, cost, hours, cash, gainPerHour, guards, note }) => ({
              option,
              expectedGain,
              probability,
              cost,
              hours,
              cash,
              gainPerHour,
              guarded: note !== undefined || guards.some(guard => !guard.overruled),
              passes: expect.any(Boolean),
            })),
        );
        expect(quick.plan).toEqual(quick.options.find(({ option }) => option === planned));
        expect(quick.guards).toEqual(whole.options.find(({ option }) => option === planned)?.guards);
      }),
      { numRuns: 120 },
    );
    expect(seen.size).toBeGreaterThan(2);
  });
});
