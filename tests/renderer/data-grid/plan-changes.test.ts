import { describe, expect, it } from 'vitest';
import {
  copyBox,
  planClear,
  planFillDown,
  planPaste,
} from '../../../renderer/components/data-grid/plan-changes.ts';
import type { GridColumn } from '../../../renderer/components/data-grid/types.ts';

interface Row {
  id: string;
  number: string;
  colour: string;
  grade: number | null;
  worth: number;
}

const row = (id: string, part: Partial<Row> = {}): Row => ({
  id,
  number: `Q-${id}`,
  colour: '',
  grade: null,
  worth: 1,
  ...part,
});
const choices = ['Ember', 'Lagoon'].map(label => ({ value: label.toLowerCase(), label }));
const columns: GridColumn<Row>[] = [
  {
    id: 'number',
    title: 'No',
    width: 80,
    value: one => one.number,
    editor: { kind: 'text' },
    editable: one => one.id !== 'sold',
  },
  { id: 'colour', title: 'Colour', width: 80, value: one => one.colour, editor: { kind: 'select', choices } },
  {
    id: 'grade',
    title: 'Grade',
    width: 60,
    value: one => one.grade,
    editor: {
      kind: 'number',
      parse: text => (/^\d+$/.test(text) ? { value: Number(text) } : { problem: `“${text}” is no grade` }),
    },
  },
  { id: 'worth', title: 'Worth', width: 60, value: one => one.worth },
];
const grid = (...rows: Row[]) => ({ rows, columns, getRowId: (one: Row) => one.id });
const box = (top: number, bottom: number, left: number, right: number) => ({ top, bottom, left, right });

describe('fill down', () => {
  it('copies the first row of the range over the others, in one go', () => {
    const content = grid(row('1', { colour: 'Ember', grade: 7 }), row('2'), row('3', { grade: 7 }));
    const { changes } = planFillDown(content, box(0, 2, 1, 2));
    expect(changes.map(({ rowId, columnId, value }) => [rowId, columnId, value])).toEqual([
      ['2', 'colour', 'ember'],
      ['3', 'colour', 'ember'],
      ['2', 'grade', 7],
    ]);
  });

  it('takes the row above for a range of one row, and nothing above the first', () => {
    const content = grid(row('1', { grade: 7 }), row('2'));
    expect(planFillDown(content, box(1, 1, 2, 2)).changes).toMatchObject([{ rowId: '2', value: 7 }]);
    expect(planFillDown(content, box(0, 0, 2, 2)).changes).toEqual([]);
  });

  it('leaves columns that cannot be edited without a word', () => {
    expect(planFillDown(grid(row('1', { worth: 9 }), row('2')), box(0, 1, 3, 3))).toEqual({
      changes: [],
      added: [],
      problems: [],
    });
  });
});

describe('paste', () => {
  it('lays cells from the corner, and says what it could not take and where', () => {
    const plan = planPaste(
      grid(row('1'), row('2')),
      box(0, 0, 1, 1),
      [
        ['lagoon', '5'],
        ['Puce', 'seven'],
      ],
      false,
    );
    expect(plan.changes.map(({ rowId, columnId, value }) => [rowId, columnId, value])).toEqual([
      ['1', 'colour', 'lagoon'],
      ['1', 'grade', 5],
    ]);
    expect(plan.problems).toEqual([
      'Row 2, Colour: “Puce” is none of: Ember, Lagoon',
      'Row 2, Grade: “seven” is no grade',
    ]);
  });

  it('fills a range with one copied cell', () => {
    const plan = planPaste(grid(row('1'), row('2'), row('3')), box(0, 2, 2, 2), [['6']], false);
    expect(plan.changes.map(change => change.value)).toEqual([6, 6, 6]);
  });

  it('makes new rows of what lies beyond the last one, where that is allowed', () => {
    const cells = [
      ['Q-8', 'Ember', '4'],
      ['Q-9', '', ''],
      ['', '', ''],
    ];
    const plan = planPaste(grid(row('1')), box(1, 1, 0, 0), cells, true);
    expect(plan.changes).toEqual([]);
    expect(plan.added.map(cellsOfRow => cellsOfRow.map(({ columnId, value }) => [columnId, value]))).toEqual([
      [
        ['number', 'Q-8'],
        ['colour', 'ember'],
        ['grade', 4],
      ],
      [['number', 'Q-9']],
    ]);
    expect(planPaste(grid(row('1')), box(1, 1, 0, 0), [['Q-8']], false).problems).toEqual([
      'Row 2 does not exist here',
    ]);
  });

  it('says when it reaches beyond the last column or onto what cannot be edited', () => {
    const plan = planPaste(grid(row('1'), row('sold')), box(0, 0, 3, 3), [['5', 'x']], false);
    expect(plan.problems).toEqual(['Row 1: Worth cannot be edited', 'A row reaches beyond the last column']);
    expect(planPaste(grid(row('sold')), box(0, 0, 0, 0), [['new']], false).problems).toEqual([
      'Row 1: No cannot be edited',
    ]);
  });

  it('changes nothing where a cell says it already', () => {
    expect(planPaste(grid(row('1', { grade: 5 })), box(0, 0, 2, 2), [[' 5 ']], false).changes).toEqual([]);
  });
});

describe('clear and copy', () => {
  it('empties what can be edited and is not empty', () => {
    const plan = planClear(grid(row('1', { colour: 'Ember' })), box(0, 0, 0, 3));
    expect(plan.changes.map(({ columnId, value }) => [columnId, value])).toEqual([
      ['number', null],
      ['colour', null],
    ]);
    expect(plan.problems).toEqual([]);
  });

  it('copies what cells say', () => {
    expect(copyBox(grid(row('1', { grade: 7 }), row('2')), box(0, 1, 0, 2))).toEqual([
      ['Q-1', '', '7'],
      ['Q-2', '', ''],
    ]);
  });
});
