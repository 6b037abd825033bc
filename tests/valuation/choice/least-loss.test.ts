import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastLoss } from '../../../valuation/choice/least-loss.ts';
import type { Choice } from '../../../valuation/choice/limits-model.ts';

const sizes = fc.record({ cars: fc.integer({ min: 1, max: 4 }), limits: fc.integer({ min: 1, max: 3 }) });
const choices = sizes.chain(({ cars, limits }) => {
  const row = <T>(of: fc.Arbitrary<T>) => fc.array(of, { minLength: 2 * cars, maxLength: 2 * cars });
  return fc.record({
    gains: row(fc.integer({ min: -20, max: 100 })),
    uses: fc.array(row(fc.integer({ min: 0, max: 30 })), { minLength: limits, maxLength: limits }),
    limits: fc.array(fc.integer({ min: 0, max: 60 }), { minLength: limits, maxLength: limits }),
    groups: fc.constant(
      Array.from({ length: cars }, (_, i) => ({ members: [2 * i, 2 * i + 1], needed: false })),
    ),
  });
});

const gainOf = ({ gains }: Choice, chosen: readonly boolean[]) =>
  gains.reduce((sum, gain, j) => sum + (chosen[j] ? gain : 0), 0);
const keeps = ({ uses, limits, groups = [] }: Choice, chosen: readonly boolean[]) =>
  uses.every((row, i) => row.reduce((sum, use, j) => sum + (chosen[j] ? use : 0), 0) <= limits[i]!) &&
  groups.every(({ members }) => members.filter(j => chosen[j]).length <= 1);
/** The most that any choice gains, by trying all. */
const best = (choice: Choice): number => {
  let most = 0;
  const count = choice.groups!.length;
  for (let code = 0; code < 3 ** count; code++) {
    const chosen = choice.gains.map((_, j) => Math.floor(code / 3 ** Math.floor(j / 2)) % 3 === 1 + (j % 2));
    if (keeps(choice, chosen)) most = Math.max(most, gainOf(choice, chosen));
  }
  return most;
};

describe('a choice by what it loses at the prices of the limits', () => {
  it('is within the gap of the best of all, whatever the prices, and its bound is one', () => {
    let found = 0;
    fc.assert(
      fc.property(
        choices,
        fc.array(fc.double({ min: 0, max: 4, noNaN: true }), { minLength: 3, maxLength: 3 }),
        fc.constantFrom(0.001, 0.05),
        (choice, prices, gap) => {
          const most = best(choice);
          const { chosen, bound } = leastLoss({ choice, prices, gap, most: 100_000, halted: () => false });
          expect(bound).toBeGreaterThanOrEqual(most - 1e-9);
          if (!chosen) return;
          found += 1;
          expect(keeps(choice, chosen)).toBe(true);
          expect(gainOf(choice, chosen)).toBeGreaterThanOrEqual(most / (1 + gap) - 1e-9);
        },
      ),
    );
    expect(found).toBeGreaterThan(30);
  });

  it('stops when it is told to, and when its work is done', () => {
    const choice: Choice = {
      gains: Array.from({ length: 60 }, (_, j) => 50 + ((j * 37) % 11)),
      uses: [Array.from({ length: 60 }, (_, j) => 50 + ((j * 29) % 13))],
      limits: [1000.5],
    };
    const search = { choice, prices: [1], gap: 1e-9, halted: () => false };
    expect(leastLoss({ ...search, most: 50 }).chosen).toBeNull();
    let asked = 0;
    const halted = () => {
      asked += 1;
      return asked > 3;
    };
    expect(leastLoss({ ...search, most: 1e9, halted }).chosen).toBeNull();
    expect(asked).toBeLessThan(10);
  });
});
