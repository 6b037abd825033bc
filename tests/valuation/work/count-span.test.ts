import { expect, it } from 'vitest';
import { countSpan } from '../../../valuation/work/count-span.ts';

it.each([
  ['2026-03-14T12:00:00Z', '2026-03-14T12:30:00Z', 1800],
  ['2026-03-14T12:00:00Z', '2026-03-14T12:00:00Z', 0],
  // Instants are UTC, so that a change to summer time or another zone adds nothing.
  ['2026-03-29T00:50:00Z', '2026-03-29T01:10:00Z', 1200],
  ['2026-03-14T01:50:00+01:00', '2026-03-14T01:10:00Z', 1200],
  // Left running over night, and a clock that was set back.
  ['2026-03-14T22:00:00Z', '2026-03-15T08:00:00Z', null],
  ['2026-03-14T12:00:00Z', '2026-03-14T11:00:00Z', null],
] as const)('from %s to %s: %s seconds', (from, to, seconds) => {
  expect(countSpan(from, to)).toBe(seconds);
});

it('refuses what is no instant', () => {
  expect(() => countSpan('yesterday', '2026-03-14T12:00:00Z')).toThrow(RangeError);
});
