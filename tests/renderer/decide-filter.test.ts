import { describe, expect, it } from 'vitest';
import type { DecisionSummary } from '../../electron/api/views.ts';
import {
  everything,
  type Filter,
  orList,
  passes,
  readFilter,
  writeFilter,
} from '../../renderer/screens/decide/filter/filter.ts';
import { weighed } from '../helpers/weighed-car.ts';

const all: Filter = {
  lot: 3,
  finish: ['original', 'touched up'],
  below: 6.5,
  not: ['scarce', 'rare'],
  recommendation: ['restore', 'not-enough-evidence'],
  decided: 'otherwise',
};

describe('the sentence of the filter', () => {
  it('goes into the address and comes back as it was', () => {
    expect(writeFilter(all)).toBe(
      'lot=3&finish=original,touched%20up&below=6.5&not=scarce,rare&recommendation=restore,not-enough-evidence&decided=otherwise',
    );
    expect(readFilter(writeFilter(all))).toEqual(all);
    expect(writeFilter(everything)).toBe('');
    expect(readFilter('')).toEqual(everything);
  });

  it('leaves out what it does not know', () => {
    const odd = 'lot=-2&finish=shiny,restored&below=6.3&not=__proto__&recommendation=sell&decided=maybe&x=1';
    expect(readFilter(odd)).toEqual({ ...everything, finish: ['restored'] });
    expect(readFilter('lot=1e99&below=1').lot).toBeNull();
    expect(readFilter('below=1').below).toBeNull();
  });

  it('says several words as one would', () => {
    expect([[], ['rare'], ['scarce', 'rare'], ['a', 'b', 'c']].map(orList)).toEqual([
      '',
      'rare',
      'scarce or rare',
      'a, b or c',
    ]);
  });
});

describe('what the sentence speaks of', () => {
  const cars: DecisionSummary[] = [
    weighed(1, { lotId: 3, finishState: 'original', grade: 4, rarity: 'common', recommendation: 'restore' }),
    weighed(2, {
      lotId: 3,
      finishState: 'restored',
      grade: null,
      rarity: null,
      recommendation: 'leave',
      decided: 'leave',
    }),
    weighed(3, {
      lotId: null,
      finishState: 'original',
      grade: 8,
      rarity: 'rare',
      recommendation: 'conserve',
      decided: 'restore',
    }),
  ];
  const ids = (part: Partial<Filter>) =>
    cars.filter(car => passes({ ...everything, ...part }, car)).map(({ car }) => car.id);

  it('is everything at first, and less with each word', () => {
    expect(ids({})).toEqual([1, 2, 3]);
    expect(ids({ lot: 3 })).toEqual([1, 2]);
    expect(ids({ finish: ['original'] })).toEqual([1, 3]);
    expect(ids({ not: ['rare'] })).toEqual([1, 2]);
    expect(ids({ recommendation: ['restore', 'conserve'] })).toEqual([1, 3]);
    expect(ids({ decided: 'undecided' })).toEqual([1]);
    expect(ids({ decided: 'decided' })).toEqual([2, 3]);
    expect(ids({ decided: 'otherwise' })).toEqual([3]);
    expect(ids({ lot: 3, finish: ['restored'], below: 6 })).toEqual([2]);
  });

  it('keeps an ungraded car below any grade, and the grade itself out', () => {
    expect(ids({ below: 4 })).toEqual([2]);
    expect(ids({ below: 4.5 })).toEqual([1, 2]);
  });
});
