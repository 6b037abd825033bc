import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayNumber, yearsBetween } from '../../valuation/calendar.ts';

describe('dayNumber', () => {
  it('counts days as the Gregorian calendar does', () => {
    const date = fc.date({
      min: new Date('1900-01-01'),
      max: new Date('2399-12-31'),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(date, date, (a, b) => {
        const text = (d: Date) => d.toISOString().slice(0, 10);
        const days = (d: Date) => Math.floor(d.getTime() / 86_400_000);
        expect(dayNumber(text(b)) - dayNumber(text(a))).toBe(days(b) - days(a));
      }),
    );
  });

  it.each([
    '1971-02-29',
    '1971-13-01',
    '1971-00-10',
    '1971-04-31',
    '1900-02-29',
    '1971-1-1',
    '',
    '1971-01-01T00:00',
  ])('refuses "%s"', text => {
    expect(() => dayNumber(text)).toThrow(RangeError);
  });

  it('accepts the leap days of 1972 and 2000', () => {
    expect(dayNumber('1972-03-01') - dayNumber('1972-02-29')).toBe(1);
    expect(dayNumber('2000-03-01') - dayNumber('2000-02-28')).toBe(2);
  });
});

describe('yearsBetween', () => {
  it('is 4 over a leap cycle, and negative backwards', () => {
    expect(yearsBetween('1968-05-01', '1972-05-01')).toBe(4);
    expect(yearsBetween('1972-05-01', '1968-05-01')).toBe(-4);
  });
});
