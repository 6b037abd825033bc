import { isCurrency } from '../money.ts';
import type { Currency } from '../types.ts';

/**
 * Signs and words for currencies as people write them, in small letters. `usual` stands where several
 * currencies share a sign and the reader's own is none of them; null then leaves it open. Common
 * practice, no source.
 */
const signs = new Map<string, { of: Currency[]; usual: Currency | null }>();
const sign = (written: string, of: string, usual: Currency | null = null) => {
  const currencies = of.split(' ');
  for (const one of written.split(' '))
    signs.set(one.replaceAll('_', ' '), {
      of: currencies,
      usual: usual ?? (currencies.length === 1 ? of : null),
    });
};
sign('€ euro euros', 'EUR');
sign('£ pound_sterling pounds_sterling', 'GBP');
sign('pound pounds', 'GBP EGP', 'GBP');
sign('quid', 'GBP');
sign('$ dollar dollars', 'USD CAD AUD NZD SGD HKD TWD', 'USD');
sign('us$ us_dollar us_dollars $us', 'USD');
sign('c$ ca$ can$ cad$', 'CAD');
sign('a$ au$ aud$', 'AUD');
sign('nz$', 'NZD');
sign('s$', 'SGD');
sign('hk$', 'HKD');
sign('nt$', 'TWD');
sign('r$ reais', 'BRL');
sign('mx$ mex$', 'MXN');
sign('¥ 円 yen', 'JPY CNY', 'JPY');
sign('元 rmb', 'CNY');
sign('₹', 'INR');
sign('₩', 'KRW');
sign('₪', 'ILS');
sign('₫', 'VND');
sign('₴', 'UAH');
sign('₺', 'TRY');
sign('₽', 'RUB');
sign('฿', 'THB');
sign('₱', 'PHP');
sign('zł zl złoty', 'PLN');
sign('kč kc', 'CZK');
sign('ft', 'HUF');
sign('fr fr. sfr sfr.', 'CHF');
sign('kr kr. kronor kroner', 'SEK NOK DKK ISK');
sign('rs rs.', 'INR PKR LKR');

const smallCodes = new Set('USD EUR GBP JPY CAD AUD NZD CHF SEK NOK DKK PLN CZK HUF BRL INR'.split(' '));

/** True for what is meant as a currency, were it one that nobody knows: a code, or a sign. */
export const looksLikeCurrency = (text: string): boolean =>
  /^[A-Z]{3}$|\p{Sc}/u.test(text.trim()) || signs.has(text.trim().toLowerCase());

/**
 * The currency that a sign, a word or a code names: null where nobody can tell, such as `kr` for a reader
 * whose own currency is no krone. `own` is the currency of amounts that name none.
 */
export const currencyNamed = (text: string, own: Currency): Currency | null => {
  const word = text
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/ (?=\p{Sc}$)/u, '');
  const code = word.toUpperCase();
  // So pence are written, of which a pound has a hundred.
  if (word === 'GBp') return null;
  // In small letters a word such as "all" or "top" is likelier than the code of that name.
  if (isCurrency(code) && (code === word || smallCodes.has(code))) return code;
  const known = signs.get(word.toLowerCase());
  if (!known) return null;
  return known.of.includes(own) ? own : known.usual;
};

/** Signs and words that say a currency in a heading, where they mean nothing else as in an amount: "ft", "fr". */
const notInHeadings = new Set(['ft', 'fr', 'fr.', 'rs', 'kc']);
const headingWord = /(?:US|CA|AU|NZ|HK|NT|MX|[ACRS])?\p{Sc}|\p{L}+\.?/giu;

/**
 * The currencies that a heading may name, as "Paid EUR", "Price (£)" and "cost in euros" do: none where it names
 * none, several where nobody can tell which, as under "Pris (kr)". `own` is the reader's own.
 */
export const currenciesOfHeading = (heading: string, own: Currency): Currency[] => {
  const found = new Set<Currency>();
  for (const [word] of heading.matchAll(headingWord)) {
    const small = word.toLowerCase();
    const code = word.toUpperCase();
    // Of a heading in capitals, a word such as "ALL" is likelier than the code of that name.
    if (smallCodes.has(code) || (word === code && isCurrency(code) && heading !== heading.toUpperCase()))
      found.add(code as Currency);
    else if (signs.has(small) && !notInHeadings.has(small)) {
      const named = currencyNamed(word, own);
      for (const one of named ? [named] : (signs.get(small)?.of ?? [])) found.add(one);
    }
  }
  return [...found];
};
