import { expect, test } from 'vitest';
import { readDate } from '../../../valuation/reading/date.ts';

const day = (cell: number | string) => readDate(cell, null, '2026-11-27');

test('a number in a column of days is the day that a spreadsheet counts by it', () => {
  // ECMA-376 part 1, 18.17.4.1: day 1 is 1 January 1900, and 29 February 1900 is counted
  // although it never was.
  expect(day(25_569)).toEqual({ ok: true, value: '1970-01-01' });
  expect(day(45_000)).toEqual({ ok: true, value: '2023-03-15' });
  for (const cell of [1969, 12, 45_000.5, 99_999, '45000']) expect(day(cell).ok).toBe(false);
  expect(day(50_000).ok).toBe(false);
});
