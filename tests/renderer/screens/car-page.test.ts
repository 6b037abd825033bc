import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { guardsAgainst, tornadoScale } from '../../../renderer/components/decision/decision-parts.ts';
import { spentOn } from '../../../renderer/screens/cars/car/books/spending.ts';
import { finishRecord } from '../../../renderer/screens/cars/car/car-names.ts';
import {
  factorOf,
  factorText,
  stepsOf,
  usedColumns,
} from '../../../renderer/screens/cars/car/evidence/adjustments.ts';
import { photoName, photoPairs } from '../../../renderer/screens/cars/car/photographs/pairs.ts';
import {
  lineTotal,
  type PlanDraft,
  partAfter,
  planInput,
  planProblem,
  withPartAfter,
} from '../../../renderer/screens/cars/car/plan/plan-draft.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { finishStates } from '../../../valuation/words.ts';

const photo = (id: number, view: string, state: string, caption = '') => ({
  id,
  sha256: String(id),
  width: 3,
  height: 2,
  view,
  state,
  caption,
  takenOn: null,
});

describe('photographs before and after', () => {
  it('pairs a view that was taken in both states, the first before with the last after', () => {
    const photos = [
      photo(1, 'rear', 'before'),
      photo(2, 'near side', 'after'),
      photo(3, 'near side', 'before'),
      photo(4, 'near side', 'after'),
      photo(5, 'base', ''),
    ];
    expect(photoPairs(photos).map(({ view, before, after }) => [view, before.id, after.id])).toEqual([
      ['near side', 3, 4],
    ]);
  });
  it('names one without saying the same twice', () => {
    expect(photoName(photo(1, 'near side', '', 'Near side'))).toBe('left side');
    expect(photoName(photo(1, 'rear', 'after', 'new lamps'))).toBe('rear, after: new lamps');
    expect(photoName(photo(1, '', ''))).toBe('photograph');
  });
});

describe('the adjustment grid', () => {
  const cause = { kind: 'rarity' as const };
  const record = {
    price: 5500,
    adjustments: [
      { what: 'currency' as const, factor: 1.4, cause },
      { what: 'parts' as const, factor: 0.5, cause },
      { what: 'fidelity' as const, factor: 0.9, cause },
    ],
  };
  it('multiplies what stands in one column, fidelity with the parts', () => {
    expect(factorOf(record, 'parts')).toBeCloseTo(0.45);
    expect(factorOf(record, 'grade')).toBeNull();
    expect(usedColumns([record]).map(({ what }) => what)).toEqual(['currency', 'parts']);
  });
  it('walks from the price to the amount brought here, step by step', () => {
    expect(stepsOf(record, 1).map(({ after }) => after)).toEqual([7700, 3850, 3465]);
    // 5,500 yen at 0.0065 are 35.75 dollars: 3,575 cents.
    expect(
      stepsOf({ price: 5500, adjustments: [{ what: 'currency', factor: 0.0065, cause }] }, 100)[0]?.after,
    ).toBe(3575);
  });
  it('writes factors with the decimals that they need', () => {
    expect([factorText(1.2345), factorText(0.0654), factorText(12.34)]).toEqual(['×1.23', '×0.065', '×12.3']);
  });
});

describe('the tornado’s axis', () => {
  it('holds no gain, the gain as expected, and both ends of every bar', () => {
    const gain = fc.integer({ min: -1_000_000, max: 1_000_000 });
    fc.assert(
      fc.property(fc.array(fc.tuple(gain, gain), { maxLength: 6 }), gain, (ends, expected) => {
        const bars = ends.map(([low, high]) => ({ input: 'cost' as const, low, high, flips: false }));
        const at = tornadoScale(bars, expected);
        for (const value of [0, expected, ...ends.flat()]) {
          expect(at(value)).toBeGreaterThan(0);
          expect(at(value)).toBeLessThan(100);
        }
      }),
    );
  });
});

describe('a plan', () => {
  const draft: PlanDraft = {
    kind: 'restore',
    targetGrade: 9,
    deviations: [],
    lines: [
      {
        name: ' Wheels ',
        kind: 'part',
        cost: { low: 100, likely: 200, high: 300 },
        part: 'wheel set',
        quantity: 2,
      },
      { name: 'Paint', kind: 'material', cost: { low: 0, likely: 50, high: 90 }, part: '  ' },
    ],
    hours: { low: 1, likely: 2, high: 3 },
    spoilChance: 0.1,
    spoiledShare: 0.5,
    partsAfter: [{ part: 'wheels', grade: null, originality: 'reproduction' }],
    notes: '',
  };
  it('sums its lines point by point', () => {
    expect(lineTotal(draft)).toEqual({ low: 100, likely: 250, high: 390 });
  });
  it('draws on the shelf only where a part is named', () => {
    const { lines } = planInput(4, draft);
    expect(lines[0]).toMatchObject({ name: 'Wheels', part: 'wheel set', quantity: 2 });
    expect(lines[1]).not.toHaveProperty('part');
  });
  it('says what is wrong with it before it is kept', () => {
    expect(planProblem(draft)).toBeNull();
    expect(planProblem({ ...draft, hours: { low: 3, likely: 2, high: 4 } })).toContain('hours');
    const cost = { low: 5, likely: 4, high: 6 };
    expect(planProblem({ ...draft, lines: [{ name: 'Glue', kind: 'material', cost }] })).toContain('Glue');
    const nameless = { name: ' ', kind: 'other' as const, cost: { low: 0, likely: 0, high: 0 } };
    expect(planProblem({ ...draft, lines: [...draft.lines, nameless] })).toContain('Line 3');
  });
  it('keeps only the parts that will not be original', () => {
    expect(partAfter(draft, 'wheels')).toBe('reproduction');
    expect(withPartAfter(draft, 'wheels', 'original').partsAfter).toEqual([]);
    expect(partAfter(withPartAfter(draft, 'roof', 'missing'), 'roof')).toBe('missing');
  });
});

describe('guards and records', () => {
  it('finds what stands against an option, overruled before or not', () => {
    const guard = { kind: 'keep-grade' as const, finish: 8, keepGrade: 7, overruled: true, reason: 'Mine' };
    const range = { low: 0, mid: 0, high: 0 };
    const restore = {
      cost: range,
      worth: range,
      gain: range,
      expectedGain: 0,
      probability: 0,
      hours: 0,
      cash: 0,
      gainPerHour: null,
      guards: [guard],
    };
    const options = [{ option: 'restore' as const, ...restore }];
    expect(guardsAgainst({ options }, 'restore')).toEqual([guard]);
    expect(guardsAgainst({ options }, 'leave')).toEqual([]);
  });
  it('says of every finish but the factory’s what it is', () => {
    for (const state of finishStates) {
      const says = finishRecord(state);
      if (state === 'original') expect(says).toBeNull();
      else expect(says?.toLowerCase()).toContain(spell(state, 'en-US'));
    }
  });
  it('adds up what was spent by currency, converting none', () => {
    const expense = { id: 1, spentOn: '2025-01-01', what: 'glue', minor: 30 };
    expect(
      spentOn({
        cost: 100,
        costCurrency: 'USD',
        expenses: [
          { ...expense, currency: 'USD' },
          { ...expense, id: 2, currency: 'JPY' },
        ],
      }),
    ).toEqual([
      { currency: 'USD', minor: 130 },
      { currency: 'JPY', minor: 30 },
    ]);
    expect(spentOn({ cost: null, costCurrency: null, expenses: [] })).toEqual([]);
  });
});
