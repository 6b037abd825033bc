import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hierarchicalCredibility } from '../../../valuation/index.ts';

const child = (parent: string | number, ...values: number[]) => ({
  parent,
  values,
  weights: values.map(() => 1),
});
const portfolio = [
  child('a', 1, 3, 2),
  child('b', 20, 24, 23),
  child('a', 6, 8),
  child('b', 30, 29),
  child('c', 11, 12),
  child('c', 15, 19, 18),
];

describe('hierarchicalCredibility', () => {
  it('solves the equations of its estimators', () => {
    const {
      within,
      betweenChildren: a,
      betweenParents: b,
      collective,
      parents,
      children,
    } = hierarchicalCredibility(portfolio);
    const means = portfolio.map(({ values }) => values.reduce((x, y) => x + y) / values.length);
    const z = portfolio.map(({ values }) => (a * values.length) / (a * values.length + within));
    const keys = ['a', 'b', 'c'];
    const members = keys.map(key => portfolio.map((_, i) => i).filter(i => portfolio[i]!.parent === key));
    const weights = members.map(list => list.reduce((sum, i) => sum + z[i]!, 0));
    const parentMeans = members.map(
      (list, p) => list.reduce((sum, i) => sum + z[i]! * means[i]!, 0) / weights[p]!,
    );
    const zp = weights.map(w => (b * w) / (b * w + a));
    const top = zp.reduce((sum, x, p) => sum + x * parentMeans[p]!, 0) / zp.reduce((x, y) => x + y);
    const spread = members.reduce(
      (sum, list, p) => sum + list.reduce((s, i) => s + z[i]! * (means[i]! - parentMeans[p]!) ** 2, 0),
      0,
    );
    expect(spread / 3 / a).toBeCloseTo(1, 12);
    expect(zp.reduce((sum, x, p) => sum + x * (parentMeans[p]! - top) ** 2, 0) / 2 / b).toBeCloseTo(1, 12);
    expect(collective).toBeCloseTo(top, 12);
    expect(parents.map(({ parent }) => parent)).toEqual(keys);
    parents.forEach(({ estimate, credibility }, p) => {
      expect(credibility).toBeCloseTo(zp[p]!, 12);
      expect(estimate).toBeCloseTo(zp[p]! * parentMeans[p]! + (1 - zp[p]!) * top, 12);
    });
    children.forEach(({ estimate }, i) => {
      const above = parents[keys.indexOf(portfolio[i]!.parent as string)]!.estimate;
      expect(estimate).toBeCloseTo(z[i]! * means[i]! + (1 - z[i]!) * above, 12);
    });
  });

  it('gives a child without weight its parent, and a parent without weight the collective', () => {
    const result = hierarchicalCredibility([
      ...portfolio,
      { parent: 'a', values: [0], weights: [0] },
      { parent: 'd', values: [0], weights: [0] },
    ]);
    const plain = hierarchicalCredibility(portfolio);
    expect(result.collective).toBeCloseTo(plain.collective, 12);
    expect(result.children[6]).toEqual({ estimate: result.parents[0]!.estimate, credibility: 0 });
    expect(result.parents[3]).toEqual({ parent: 'd', estimate: result.collective, credibility: 0 });
    expect(result.children[7]!.estimate).toBe(result.collective);
  });

  it('takes the variance between children as 0 where they agree, and still tells parents apart', () => {
    const result = hierarchicalCredibility([
      child(1, 0, 10),
      child(1, 1, 9),
      child(2, 100, 110),
      child(2, 101, 109),
    ]);
    expect(result.betweenChildren).toBe(0);
    expect(result.betweenParents).toBeGreaterThan(0);
    // Each parent's four observations share the variance within.
    const { within, betweenParents: b } = result;
    expect(result.parents[0]!.credibility).toBeCloseTo((4 * b) / (4 * b + within), 12);
    expect(result.children[0]).toEqual({ estimate: result.parents[0]!.estimate, credibility: 0 });
  });

  it('pools to one mean where nothing differs, or where there is one parent of one child', () => {
    for (const groups of [
      [child(1, 1, 3)],
      [child(1, 0, 4), child(2, 0, 4)],
      [child(1, 2, 2), child(2, 2, 2)],
    ]) {
      const result = hierarchicalCredibility(groups);
      expect(result).toMatchObject({ betweenChildren: 0, betweenParents: 0, collective: 2 });
      for (const { estimate } of [...result.parents, ...result.children]) expect(estimate).toBe(2);
    }
  });

  it('does not mind the order of groups', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(portfolio, { minLength: portfolio.length }), shuffled => {
        const plain = hierarchicalCredibility(portfolio);
        const result = hierarchicalCredibility(shuffled);
        expect(result.collective).toBeCloseTo(plain.collective, 11);
        shuffled.forEach((group, i) => {
          expect(result.children[i]!.estimate).toBeCloseTo(
            plain.children[portfolio.indexOf(group)]!.estimate,
            11,
          );
        });
      }),
    );
  });

  it('always ends, with finite figures and credibilities in 0…1', () => {
    const values = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 3 }), values), { minLength: 1, maxLength: 12 }),
        list => {
          fc.pre(list.some(([, v]) => v.length > 1));
          const result = hierarchicalCredibility(list.map(([parent, v]) => child(parent, ...v)));
          for (const { estimate, credibility } of [...result.parents, ...result.children]) {
            expect(Number.isFinite(estimate)).toBe(true);
            expect(credibility).toBeGreaterThanOrEqual(0);
            expect(credibility).toBeLessThanOrEqual(1);
          }
        },
      ),
    );
  });

  it('refuses empty, mismatched and wild input', () => {
    expect(() => hierarchicalCredibility([])).toThrow('groups must not be empty');
    expect(() => hierarchicalCredibility([{ parent: 1, values: [1, 2], weights: [1] }])).toThrow(RangeError);
    expect(() => hierarchicalCredibility([{ parent: Number.NaN, values: [1, 2], weights: [1, 1] }])).toThrow(
      /parent of every group/,
    );
    expect(() => hierarchicalCredibility([child(1, 1), child(2, 2)])).toThrow(/two observations/);
  });
});
