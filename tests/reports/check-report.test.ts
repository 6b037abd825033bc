import { describe, expect, it } from 'vitest';
import { checkReport } from '../../reports/model/check-report.ts';
import type { CollectionReport, ReportEntry } from '../../reports/types.ts';
import { plainEntry, sampleReport, worth } from './sample-report.ts';

const withAsFound = (low: number, mid: number, high: number): ReportEntry =>
  plainEntry({ worths: { ...plainEntry().worths, asFound: worth(low, mid, high) } });

describe('checking a report before it is printed', () => {
  it('accepts a sound one', () => {
    expect(() => checkReport(sampleReport([plainEntry()]))).not.toThrow();
  });

  const faults: [string, CollectionReport, RegExp][] = [
    ['a fractional amount', sampleReport([withAsFound(1, 2.5, 3)]), /Q-0001, asFound: 2\.5 is not a whole/],
    ['a range that does not rise', sampleReport([withAsFound(3, 2, 1)]), /low, mid and high must rise/],
    ['no number', sampleReport([withAsFound(Number.NaN, 2, 3)]), /not a whole number/],
    ['an unknown grade', sampleReport([plainEntry({ grade: 7.3 })]), /not a grade/],
    ['no currency', sampleReport([], { currency: 'dollars' }), /not a currency of ISO 4217/],
    ['no date', sampleReport([], { effectiveOn: '25.11.2026' }), /effective date/],
    ['an impossible date', sampleReport([], { effectiveOn: '2026-13-45' }), /effective date/],
    ['no instant', sampleReport([], { preparedOn: '2026-11-25' }), /not an instant/],
    ['no instant to stamp', sampleReport([], { stampedAt: 'today' }), /not an instant/],
    [
      'a cost without currency',
      sampleReport([
        plainEntry({ acquisition: { lot: 'x', on: null, from: null, cost: 5, currency: null } }),
      ]),
      /a cost needs its currency/,
    ],
  ];
  it.each(faults)('refuses %s', (_, report, message) => {
    expect(() => checkReport(report)).toThrow(RangeError);
    expect(() => checkReport(report)).toThrow(message);
  });
});
