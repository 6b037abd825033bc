import { describe, expect, it } from 'vitest';
import {
  everything,
  type Filter,
  orList,
  writeFilter,
} from '../../../renderer/screens/decide/filter/filter.ts';
import { decideFilterIn } from '../../../valuation/reading/list-address.ts';

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
    expect(decideFilterIn(writeFilter(all))).toEqual(all);
    expect(writeFilter(everything)).toBe('');
    expect(decideFilterIn('')).toEqual(everything);
  });

  it('leaves out what it does not know', () => {
    const odd = 'lot=-2&finish=shiny,restored&below=6.3&not=__proto__&recommendation=sell&decided=maybe&x=1';
    expect(decideFilterIn(odd)).toEqual({ ...everything, finish: ['restored'] });
    expect(decideFilterIn('lot=1e99&below=1').lot).toBeNull();
    expect(decideFilterIn('below=1').below).toBeNull();
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
