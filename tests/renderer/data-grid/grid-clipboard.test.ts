import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromTsv, tile, toTsv } from '../../../renderer/components/data-grid/clipboard.ts';

describe('the clipboard', () => {
  it('reads what spreadsheets write', () => {
    expect(fromTsv('a\tb\r\nc\td\r\n')).toEqual([
      ['a', 'b'],
      ['c', 'd'],
    ]);
    expect(fromTsv('a\t\t\n\tb\t')).toEqual([
      ['a', '', ''],
      ['', 'b', ''],
    ]);
    expect(fromTsv('"two\nlines"\t"a ""quoted"" word"')).toEqual([['two\nlines', 'a "quoted" word']]);
    expect(fromTsv('5" wheel\tC7')).toEqual([['5" wheel', 'C7']]);
    expect(fromTsv('"never closed\tC7')).toEqual([['"never closed', 'C7']]);
    expect(fromTsv('one')).toEqual([['one']]);
    expect(fromTsv('')).toEqual([['']]);
  });

  it('keeps a blank line in the middle, and drops NUL', () => {
    expect(fromTsv('a\n\nb')).toEqual([['a'], [''], ['b']]);
    expect(fromTsv('a\u0000b')).toEqual([['ab']]);
  });

  it('gives back what it took', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', 'é', ' ', '"', '\t', '\n', '\r', ',', '=') });
    const table = fc
      .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 5 }))
      .chain(([columns, rows]) =>
        fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
          minLength: rows,
          maxLength: rows,
        }),
      )
      // A last row of one empty cell is the same as the line end before it.
      .filter(
        rows => rows.length === 1 || rows.at(-1)?.some(text => text !== '') || (rows.at(-1)?.length ?? 0) > 1,
      );
    fc.assert(
      fc.property(table, rows => {
        expect(fromTsv(toTsv(rows))).toEqual(rows);
      }),
    );
  });
});

describe('tile', () => {
  it('repeats one cell, a row or a column over a range that it fits', () => {
    expect(tile([['x']], 2, 3)).toEqual([
      ['x', 'x', 'x'],
      ['x', 'x', 'x'],
    ]);
    expect(tile([['a', 'b']], 2, 2)).toEqual([
      ['a', 'b'],
      ['a', 'b'],
    ]);
  });

  it('leaves what does not fit evenly as it is', () => {
    const cells = [['a'], ['b']];
    expect(tile(cells, 3, 1)).toBe(cells);
    expect(tile(cells, 1, 1)).toBe(cells);
    expect(tile([], 3, 3)).toEqual([]);
  });
});
