import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { activeCell, inertCell } from '../../../valuation/reading/inert.ts';

describe('inert cells', () => {
  it.each([
    '=1+1',
    '+cmd',
    '-cmd|x',
    '@SUM(A1)',
    '\tx',
    '\r=1',
    '\n=1',
    "''=two",
    '\0x',
    "'=x",
    '+49 123',
    '=',
    '-',
  ])('makes %j inert and gives it back', text => {
    expect(inertCell(text)).toBe(`'${text}`);
    expect(activeCell(inertCell(text))).toBe(text);
  });

  it.each(['-5', '-5.00', '+3', '-.5', '1e-7', 'plain', '', "'tis", "o'clock", '\u2013', ' =1'])(
    'leaves %j as it is',
    text => {
      expect(inertCell(text)).toBe(text);
      expect(activeCell(text)).toBe(text);
    },
  );

  it('gives back whatever went in, and never lets a formula through', () => {
    const piece = fc.constantFrom("'", '=', '+', '-', '@', '\t', '\0', '1', '.', 'e', 'a', ' ', ',');
    const cell = fc.oneof(
      fc.string(),
      fc.array(piece, { maxLength: 6 }).map(pieces => pieces.join('')),
    );
    fc.assert(
      fc.property(cell, text => {
        const written = inertCell(text);
        expect(activeCell(written)).toBe(text);
        if (/^[=@\t\0]/.test(text)) expect(written.startsWith("'")).toBe(true);
        if (/^[=+\-@\t\0]/.test(written)) expect(Number.isFinite(Number(written))).toBe(true);
      }),
    );
  });
});
