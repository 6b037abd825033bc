import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { parseCell } from '../../../renderer/components/data-grid/parse-cell.ts';
import type { GridColumn } from '../../../renderer/components/data-grid/types.ts';
import { later, meaningChoices, meaningOf } from '../../../renderer/components/own-words/meaning-choices.ts';
import { mergedAsked } from '../../../renderer/components/own-words/merge-asked.ts';
import { ownMeanings } from '../../../renderer/components/own-words/own-meanings.ts';
import { parseGradeText } from '../../../renderer/screens/lots/lot/car-edits.ts';
import { wordsFromCsv, wordsToCsv } from '../../../renderer/screens/settings/words/words-file.ts';

const vocabulary = { colour: ['Limewash', 'Ember'] };
const choices = (field: string, typed: string, locale = 'en-US') =>
  meaningChoices({ field, text: 'as it stands' }, typed, vocabulary, locale);
const first = (field: string, typed: string) => meaningOf(choices(field, typed)[0]!);

describe('what a text can be said to mean', () => {
  it('is found by typing its beginning, in its own field first', () => {
    expect(first('colour', 'lim')).toEqual({ field: 'colour', meaning: 'Limewash' });
    expect(first('base_paint', 'fr')).toEqual({ field: 'base_paint', meaning: 'front quarter' });
    expect(first('wheels', 'reproduction wh')).toEqual({ field: 'reproduction_parts', meaning: 'wheels' });
  });

  it('is whatever the reader of its field understands, and nothing that it does not', () => {
    expect(first('grade', '7/10')).toEqual({ field: 'grade', meaning: '7' });
    expect(first('grade', 'C2')).toEqual({ field: 'grade', meaning: '2' });
    expect(choices('grade', 'lovely').map(meaningOf)).toEqual([]);
    expect(choices('colour', 'teal').map(meaningOf)).toContainEqual({ field: 'colour', meaning: 'teal' });
  });

  it('can be no value, nothing at all, or left for later', () => {
    expect(first('grade', 'not a v')).toEqual({ field: 'notes', meaning: 'as it stands' });
    expect(first('grade', 'says noth')).toEqual({ field: 'nothing', meaning: '' });
    expect(choices('grade', 'later')[0]?.value).toBe(later);
  });

  it('is written as its reader writes it, and saved as the field does', () => {
    const [american] = choices('finish_state', 'cust');
    expect(american?.label).toBe('customized');
    expect(meaningOf(american!)).toEqual({ field: 'finish_state', meaning: 'customised' });
    expect(choices('finish_state', 'cust', 'en-GB')[0]?.label).toBe('customised');
  });
});

it('what was answered stays in its place, and what is no longer asked goes', () => {
  const word = (text: string) => ({ column: 'Cond.', text, field: 'grade', meaning: '', rows: 1, where: '' });
  const answers = new Map([[JSON.stringify(['cond.', 'a']), { field: 'grade', meaning: '7' }]]);
  const after = mergedAsked([word('a'), word('b'), word('c')], [word('c'), word('d')], answers);
  expect(after.map(({ text }) => text)).toEqual(['a', 'c', 'd']);
});

describe('a cell', () => {
  const means = ownMeanings([
    { text: 'Beater', field: 'grade', meaning: '2' },
    { text: 'g', field: 'grade', meaning: '6' },
    { text: 'g', field: 'grade', meaning: '5' },
    { text: '*', field: 'grade', meaning: '5 stars' },
  ]);
  const column: GridColumn<never> = {
    id: 'grade',
    title: 'Grade',
    width: 60,
    value: () => null,
    editor: { kind: 'number', parse: parseGradeText },
    means: means('grade'),
  };

  it('takes the words of its owner', () => {
    expect(parseCell(column, ' beater ', null)).toEqual({ value: 2, choice: null });
    expect(parseCell(column, 'C7', null)).toEqual({ value: 7, choice: null });
  });

  it('refuses one that has two meanings, and one of another field', () => {
    expect(parseCell(column, 'g', null)).toHaveProperty('problem');
    expect(parseCell({ ...column, means: means('colour') }, 'beater', null)).toHaveProperty('problem');
  });
});

it('words go out to a file and come back the same, inert in a spreadsheet', () => {
  const words = [
    { column: 'Cond.', text: '=mint, "nice"', field: 'grade', meaning: '9.5' },
    { column: '*', text: 'n/a', field: 'nothing', meaning: '' },
    { column: 'Wheels', text: '+repro', field: 'reproduction_parts', meaning: 'wheels' },
  ];
  const csv = wordsToCsv(Papa, words);
  expect(csv).not.toMatch(/(^|,|")[=+]/m);
  expect(wordsFromCsv(Papa, csv)).toEqual({ words, problems: [] });
  expect(wordsFromCsv(Papa, 'text,field,meaning\nx,grade,\ny,grade,lovely\n')).toEqual({
    words: [],
    problems: ['Line 3, “y”: "lovely" is not a grade from C1 to C10 such as C7.5.'],
  });
  expect(wordsFromCsv(Papa, 'a,b\n1,2\n').problems).toHaveLength(1);
});
