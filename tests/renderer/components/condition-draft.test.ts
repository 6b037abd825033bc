import { describe, expect, it } from 'vitest';
import type { ConditionCheckView } from '../../../electron/api/views.ts';
import {
  checkInput,
  draftOfCheck,
  isReadable,
  newestCheck,
  originalityOfKey,
  readGrade,
} from '../../../renderer/components/condition/condition-draft.ts';
import { partNames } from '../../../valuation/words.ts';

const check = (
  id: number,
  checkedOn: string,
  parts: ConditionCheckView['parts'] = [],
): ConditionCheckView => ({
  id,
  checkedOn,
  grade: 6,
  finishState: 'original',
  notes: 'as it came',
  parts,
});

describe('the condition of a car, part by part', () => {
  it('begins with the newest check, the parts in their order', () => {
    const roof = { part: 'roof', grade: 7.5, originality: 'reproduction', note: 'too smooth' } as const;
    const newest = newestCheck([
      check(1, '2026-01-02'),
      check(3, '2026-03-01', [roof]),
      check(2, '2026-03-01'),
    ]);
    expect(newest?.id).toBe(3);
    const draft = draftOfCheck(newest, 6);
    expect(draft.parts.map(part => part.part)).toEqual([...partNames]);
    expect(draft).toMatchObject({ overall: 'C6', notes: 'as it came' });
    expect(draft.parts.find(({ part }) => part === 'roof')).toEqual({ ...roof, grade: 'C7.5' });
    expect(draftOfCheck(newest, 6, ['roof', 'base']).parts.map(({ part }) => part)).toEqual(['roof', 'base']);
  });

  it('changes the check of today, and leaves an older one to stand', () => {
    const draft = draftOfCheck(null, null, ['body finish', 'roof', 'base']);
    draft.parts[0] = { ...draft.parts[0]!, grade: '7,5' };
    draft.parts[2] = { ...draft.parts[2]!, grade: '5', originality: 'missing' };
    expect(checkInput(9, draft, check(4, '2026-03-13'), '2026-03-14')).toEqual({
      carId: 9,
      checkId: null,
      checkedOn: '2026-03-14',
      grade: null,
      notes: '',
      parts: [
        { part: 'body finish', grade: 7.5, originality: 'original', note: '' },
        { part: 'base', grade: null, originality: 'missing', note: '' },
      ],
    });
    expect(checkInput(9, draft, check(4, '2026-03-14'), '2026-03-14').checkId).toBe(4);
  });

  it('keeps a part that was graded before and is emptied now', () => {
    const before = check(4, '2026-03-14', [{ part: 'roof', grade: 7, originality: 'original', note: '' }]);
    const draft = draftOfCheck(before, 6, ['body finish', 'roof']);
    draft.parts[1] = { ...draft.parts[1]!, grade: '' };
    expect(checkInput(9, draft, before, '2026-03-14').parts).toEqual([
      { part: 'roof', grade: null, originality: 'original', note: '' },
    ]);
  });

  it('reads grades and letters, and knows what cannot be read', () => {
    expect(['7', 'C7.5', ' c7,5 ', '7/10', '', '11', 'fine'].map(readGrade)).toEqual([
      7,
      7.5,
      7.5,
      7,
      null,
      undefined,
      undefined,
    ]);
    expect(['o', 'P', 'r', 'M', '7'].map(originalityOfKey)).toEqual([
      'original',
      'period replacement',
      'reproduction',
      'missing',
      null,
    ]);
    const draft = draftOfCheck(null, null);
    expect(isReadable(draft)).toBe(true);
    draft.parts[0] = { ...draft.parts[0]!, grade: 'x' };
    expect(isReadable(draft)).toBe(false);
  });
});
