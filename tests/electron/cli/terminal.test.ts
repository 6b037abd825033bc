import { describe, expect, it } from 'vitest';
import { printable, printableLines } from '../../../electron/cli/printable.ts';
import { table } from '../../../electron/cli/terminal.ts';

describe('what is printed', () => {
  it('shows what would steer the terminal, and leaves the rest as it is', () => {
    expect(printable('\u001b[2J\u009b31m\u0007')).toBe('\\u001b[2J\\u009b31m\\u0007');
    expect(printable('one\ntwo\tthree\r\u2028')).toBe('one\\ntwo\\tthree\\r\\u2028');
    expect(printable('gnp.\u202eexe')).toBe('gnp.\\u202eexe');
    expect(printable('Coupé „Löwe“ – 東京 👍🏽')).toBe('Coupé „Löwe“ – 東京 👍🏽');
  });
  it('keeps the lines that are meant, and JSON of the same value', () => {
    expect(printableLines('one\ntwo\u001b')).toBe('one\ntwo\\u001b');
    const value = { text: 'a\u009b\u007f\n\u202e"' };
    const json = printableLines(JSON.stringify(value, null, 2));
    expect(JSON.parse(json)).toEqual(value);
    expect(json).not.toMatch(/[\u007f-\u009f\u202e]/);
  });
  it('lines columns up on what is shown of a cell', () => {
    expect(table(['No', 'Car'], [['1', 'a\u001bb']])).toEqual(['No  Car', '──  ────────', '1   a\\u001bb']);
  });
  it('is a table of a large collection as well', () => {
    const rows = Array.from({ length: 200_000 }, (_, i) => [String(i), 'Dovetail']);
    const lines = table(['No', 'Car'], rows, [0]);
    expect(lines.length).toBe(200_002);
    expect(lines.at(-1)).toBe('199999  Dovetail');
  });
});
