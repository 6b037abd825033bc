import { describe, expect, it } from 'vitest';
import {
  choiceFor,
  lotNameOf,
  mapHeading,
  rejectedCsv,
} from '../../../renderer/screens/lots/import/import-choice.ts';

const column = (heading: string, ours: string | null, how: 'chosen' | 'recognised') => ({
  index: 0,
  heading,
  ours,
  how,
  decimal: null,
  dateOrder: null,
  samples: [],
});

describe('mapping a heading', () => {
  it('lets a column go where another heading was chosen for it, and leaves recognised ones to give way', () => {
    const columns = [column('Tag', 'casting', 'chosen'), column('Car', 'grade', 'recognised')];
    const choice = { ...choiceFor('lot', null), map: { Tag: 'casting' } };
    expect(mapHeading(choice, columns, 'What', 'casting').map).toEqual({ Tag: null, What: 'casting' });
    expect(mapHeading(choice, columns, 'What', 'grade').map).toEqual({ Tag: 'casting', What: 'grade' });
    expect(mapHeading(choice, columns, 'Tag', null).map).toEqual({ Tag: null });
  });
});

it('the rejected rows are saved as CSV that no spreadsheet runs', () => {
  expect(
    rejectedCsv([
      { line: 4, column: 'Grade', reason: '"eleven" is no grade, write C7' },
      { line: 9, column: '=cmd()', reason: 'two\nlines' },
      { line: 10, column: null, reason: 'plain' },
    ]),
  ).toBe(
    'line,column,reason\r\n4,Grade,"""eleven"" is no grade, write C7"\r\n9,\'=cmd(),"two\nlines"\r\n10,,plain',
  );
});

it('a lot is named after its file', () => {
  expect(lotNameOf('barn_tin-2026.csv')).toBe('barn tin 2026');
  expect(lotNameOf('Loft.find.xlsx')).toBe('Loft.find');
});
