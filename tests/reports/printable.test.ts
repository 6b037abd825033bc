import { describe, expect, it } from 'vitest';
import { longDate, longInstant, printableLine, printableText } from '../../reports/printable.ts';

describe('text made fit for print', () => {
  it('drops controls, overrides and lone surrogates, keeps line ends', () => {
    expect(printableText('a\0b\u0007c\r\nd\u202ee\u2066f')).toBe('abc\ndef');
    expect(printableText('x\ud800y')).toBe('x\ufffdy');
  });
  it('marks private-use characters, which archival files forbid', () => {
    expect(printableText('a\ue000b')).toBe('a\u25a1b');
  });
  it('lets long unbroken runs break without changing what is read', () => {
    const run = 'x'.repeat(500);
    expect(printableText(run)).toContain('\u200b');
    expect(printableText(run).replaceAll('\u200b', '')).toBe(run);
    expect(printableText('a short word')).toBe('a short word');
  });
  it('makes one line of a name', () => {
    expect(printableLine('  a\n\n b\t c ')).toBe('a b c');
    expect(printableLine(null)).toBe('');
  });
  it('writes dates in words, and instants in the offset given', () => {
    expect(longDate('2026-03-04')).toBe('4 March 2026');
    expect(longDate('spring 1971')).toBe('spring 1971');
    expect(longInstant('2026-11-25T15:46:00Z')).toBe('25 November 2026, 15:46 UTC');
    expect(longInstant('2026-11-25T15:46:00+09:00')).toBe('25 November 2026, 15:46 UTC+09:00');
  });
});
