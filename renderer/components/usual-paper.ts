import type { ReportRequest } from '../../electron/api/views.ts';

export type PaperSize = NonNullable<ReportRequest['paper']>;

/**
 * Where letters are written on US letter, by region. From memory of the Unicode CLDR; every other
 * region writes on A4.
 */
const letterRegions = new Set('US PR CA MX PH BZ CL CO CR GT NI PA SV VE'.split(' '));

/** The paper that a reader's printer most likely holds. */
export const usualPaper = (locale: string): PaperSize =>
  letterRegions.has(new Intl.Locale(locale).maximize().region ?? '') ? 'us-letter' : 'a4';
