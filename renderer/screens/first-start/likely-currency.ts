import type { Currency } from '../../../valuation/types.ts';

const byRegion: Record<string, Currency> = {
  US: 'USD',
  GB: 'GBP',
  CA: 'CAD',
  AU: 'AUD',
  NZ: 'NZD',
  JP: 'JPY',
  CH: 'CHF',
  SE: 'SEK',
  NO: 'NOK',
  DK: 'DKK',
  PL: 'PLN',
  CZ: 'CZK',
  BR: 'BRL',
  MX: 'MXN',
  ZA: 'ZAR',
  IN: 'INR',
};
const euro = new Set('AT BE CY DE EE ES FI FR GR HR IE IT LT LU LV MT NL PT SI SK'.split(' '));

/** The currency to propose, by the region of the reader's language; the reader has the last word. */
export const likelyCurrency = (language: string): Currency => {
  let region: string | undefined;
  try {
    region = new Intl.Locale(language).maximize().region;
  } catch {
    region = undefined;
  }
  if (region && euro.has(region)) return 'EUR';
  return byRegion[region ?? ''] ?? 'USD';
};
