import type { Currency, IsoDate, Minor } from '../../types.ts';
import { type DateOrder, dateOrderOf, isAmbiguousDate, readDate } from '../date.ts';
import { currencyOfAmount, readMoney } from '../money.ts';
import { type Line, type Span, spanOf, words } from './text.ts';
import { about } from './vocabulary.ts';

/** The sign between the figures of a date; each may have its own order in a file of several hands. */
export const dateSigns = ['/', '.', '-'] as const;
export type DateSign = (typeof dateSigns)[number];
export type DateOrders = Partial<Record<DateSign, DateOrder>>;

const codes =
  'usd|eur|gbp|jpy|cad|aud|nzd|chf|sek|nok|dkk|pln|czk|huf|brl|inr|cny|hkd|sgd|mxn|zar|ils|krw|twd|thb|isk|ron|bhd|kwd';
const unit = `(?:us|c|ca|a|au|nz|s|hk|nt|r|mx)?\\$|\\p{Sc}|${codes}|dollars?|euros?|pounds?|quid|yen|zl|kc|kr\\.?|sfr\\.?|fr\\.`;
/** Figures that may be an amount, and no part of a word such as "C6". */
const figures = "(?<![\\p{L}\\p{N}.,])\\d[\\d.,']*";
/**
 * Before a day: no figures of an amount, as in "£4.20 Nov 24", and no currency, as in "£20 Nov 24", unless it
 * stands behind figures of its own, as in "61 € 20 Nov 24".
 */
const notAmount = `(?<!\\d[.,'])(?<!\\p{Sc})(?<!(?<!${figures} ?)\\p{Sc} )(?<!(?<!${figures} ?)(?<!\\p{L})(?:${codes}) ?)`;
/** Before a day: no grade such as "C 6", and none out of ten. */
const notGrade = '(?<!(?<!\\p{L})c )(?<!\\d/)';
/** Before a month that has its day behind it: no day. */
const noDayBefore = '(?<!(?<![\\p{L}\\p{N}.,/])\\d{1,2}(?:st|nd|rd|th|\\.)?[ -]?)';
/**
 * Behind the two figures of a year: no other year, and neither cents nor a currency, which would make them an
 * amount, unless that has figures of its own behind it.
 */
const endsYear = (own: string) => `(?!,? (?:19|20)\\d{2}(?!\\d)|[.,]\\d| ?(?:${unit})(?!\\p{L}|${own}))`;

const numericDay = words('\\d{1,2}(?<sign>[./-])\\d{1,2}\\k<sign>(?:\\d{4}|\\d{2})');
const dayPatterns = [
  words('\\d{4}[./-]\\d{1,2}[./-]\\d{1,2}'),
  numericDay,
  words(
    `${notAmount}${notGrade}\\d{1,2}(?:st|nd|rd|th|er|\\.)?[ -]?\\p{L}{3,10}[.,]?[ -]?(?:\\d{4}|\\d{2}${endsYear(' ?\\\\d')})`,
  ),
  words(`${noDayBefore}\\p{L}{3,10}\\.? \\d{1,2}(?:st|nd|rd|th)?,? (?:\\d{4}|'?\\d{2}${endsYear('\\\\d')})`),
  words(`${noDayBefore}\\p{L}{3,10}\\.? \\d{1,2}/(?:\\d{4}|\\d{2})`),
];

/** The order of each sign's dates as the lines prove it; a sign whose lines prove both, or none, has none. */
export const dateOrdersOf = (texts: Iterable<string>): DateOrders => {
  const shown = new Map<string, Set<DateOrder>>();
  for (const text of texts)
    for (const match of text.matchAll(numericDay)) {
      const order = dateOrderOf(match[0]);
      const sign = match.groups?.sign ?? '';
      if (order) shown.set(sign, (shown.get(sign) ?? new Set()).add(order));
    }
  return Object.fromEntries(
    [...shown].flatMap(([sign, orders]) => (orders.size === 1 ? [[sign, [...orders][0]]] : [])),
  );
};

export interface Found<T> {
  value: T;
  span: Span;
}

const named = /^\d{1,2}\D*[ -]?\p{L}{3}|^\p{L}/u;

/**
 * The matches of a pattern, those included that begin within one that is no day: "$5 shipping, 16 May 2026".
 */
const daysIn = (line: Line, pattern: RegExp): RegExpExecArray[] => {
  const found: RegExpExecArray[] = [];
  const rest = line.rest();
  pattern.lastIndex = 0;
  for (let match = pattern.exec(rest); match; match = pattern.exec(rest)) {
    const isDay = !named.test(match[0]) || readDate(match[0], 'dmy', '2999-12-31').ok;
    if (isDay) found.push(match);
    else pattern.lastIndex = match.index + 1;
  }
  pattern.lastIndex = 0;
  return found;
};

/**
 * The day of the sale; null where there is none, where it can be read two ways, and where there are several.
 */
export const takeDay = (line: Line, orders: DateOrders, today: IsoDate): Found<IsoDate> | null => {
  const found: Found<IsoDate>[] = [];
  for (const pattern of dayPatterns)
    for (const match of daysIn(line, pattern)) {
      const span = spanOf(match);
      const sign = match.groups?.sign as DateSign | undefined;
      const read = readDate(line.text.slice(span.start, span.end), (sign && orders[sign]) ?? null, today);
      if (read.ok) found.push({ value: read.value, span });
      if (read.ok || sign) line.doubt(span);
    }
  const days = new Set(found.map(({ value }) => value));
  const [first] = found;
  if (!first || days.size !== 1) return null;
  for (const { span } of found) line.take(span);
  return first;
};

export interface Price {
  minor: Minor;
  currency: Currency;
}

/** Figures of an amount; no part of them where more stand close behind, as in "12.5k" and "12½". */
const amount =
  "(?:\\d{1,3}(?:[.,' ]\\d{3})+(?:[.,]\\d{1,2})?|\\d+(?:[.,]\\d{1,3})?)(?:[.,]-)?(?![.,]?[\\d½¼¾]| ?[½¼¾]|[kms](?!\\p{L})|/\\d)";
const notInWord = '(?<![\\p{L}\\p{N}.,/])';
const signed = new RegExp(`${notInWord}(?:${unit}) ?${amount}(?: ?(?:${codes})(?!\\p{L}))?`, 'dgu');
const figuresFirst = new RegExp(`${notInWord}${amount} ?(?:${unit})(?!\\p{L})`, 'dgu');
const barelyYear = /(?<![\d.,])(?:19[4-9]\d|20[0-4]\d)(?![\d.,])/;
const unpriced = new RegExp(
  `(?<=(?:^|[,;|\\ue000]) *)\\d+[.,]\\d{2}(?= *(?:$|[,;|]))|(?<=(?:sold for|went for|brought|price:?|hammer:?|verkauft fur) )${amount}(?![\\p{L}/])|(?<=(?:^|[,;|] *)sold )\\d+(?:[.,]\\d{2})?(?= *(?:$|[,;|]| - ))`,
  'dgu',
);
const each = /^ ?(?:\/ ?(?:ea|each|pc|car)\b|ea\b|each|apiece|a ?piece|per car|pro stuck|je\b|piece)/;
const carriage =
  /^ *(?:for )?(?:shipping|postage|post\b|p ?& ?p|carriage|delivery|versand|porto|verzend|frais|envoi|envio|spedizione)/;
/** Shillings behind pounds. */
const shillings = /^ ?\d{1,2} ?(?:s(?!\p{L})|\/-)/u;
/** What makes an amount, before it or behind it, one that nobody paid. */
const unpaid = 'est\\.?|estimate|estimated|reserve|guide(?: price)?|deposit|retail(?: price)?';
const noPrice = new RegExp(
  `^ *(?:${unpaid}|start(?:ing)?(?: price| bid)?|opening bid|insurance|(?:still )?(?:to follow|outstanding|owed|owing|to pay))(?!\\p{L})`,
  'u',
);
const estimate = new RegExp(
  `(?:^|[^\\p{L}])(?:${unpaid}|(?:reserve|deposit) of|reserve at|worth|valued?|rrp|plus|start(?:ed|ing)?(?: at| bid| price)?|(?:current|high|highest) bid(?: of)?|insured(?: for| at)?|open(?:ed|ing)(?: at| bid)|post(?:age)?|shipping|excl\\.?|incl\\.?|zzgl\\.?|inkl\\.?|(?<= )\\+|${about}) *:? *$`,
  'u',
);
const brought = /(?:sold|for|ended|ended at|brought|made|fetched|price|hammer|realised|fur) *:? *$/;

/**
 * Of two amounts that share one currency, as in "8 £4.20" and "61.00 USD 20", the one that it is of: that to
 * which it is joined, that which is no year, or that with cents; null where that is not to be told.
 */
const ownerOf = (texts: readonly [string, string]): 0 | 1 | null => {
  const tells: ((text: string) => boolean)[] = [
    text => !text.includes(' '),
    text => !barelyYear.test(text),
    text => /\d[.,]\d{2}(?!\d)/.test(text),
  ];
  for (const tell of tells) {
    const [first, second] = [tell(texts[0]), tell(texts[1])];
    if (first !== second) return first ? 0 : 1;
  }
  return null;
};

/** Amounts with a currency before or behind them, in their order. */
const pricedSpans = (line: Line): Span[] => {
  const before = line.matches(signed).map(match => spanOf(match));
  const behind = line.matches(figuresFirst).map(match => spanOf(match));
  const textOf = ({ start, end }: Span) => line.folded.slice(start, end);
  const dropped = new Set<Span>();
  for (const one of before)
    for (const other of behind) {
      if (one.start >= other.end || other.start >= one.end) continue;
      const owner = ownerOf([textOf(one), textOf(other)]);
      if (owner !== 0) dropped.add(one);
      if (owner !== 1) dropped.add(other);
    }
  return [...before, ...behind].filter(span => !dropped.has(span)).sort((a, b) => a.start - b.start);
};

export interface FoundPrice extends Found<Price> {
  /** The line says that it was paid. */
  isSaid: boolean;
  /** No currency stands beside it. */
  unnamed: boolean;
}

/** The price; null where there is none, or where there are several and none is said to be it. */
export const takePrice = (line: Line, own: Currency): FoundPrice | null => {
  const read = (span: Span, unnamed: boolean): Omit<FoundPrice, 'isSaid'> | null => {
    const text = line.text.slice(span.start, span.end);
    const named = currencyOfAmount(text, own);
    if (named === null || (named === 'none' && !unnamed)) return null;
    const currency = named === 'none' ? own : named;
    const money = readMoney(text, currency);
    return money.ok && money.value > 0
      ? { value: { minor: money.value, currency }, span, unnamed: named === 'none' }
      : null;
  };
  const amounts = (spans: Span[], unnamed: boolean) =>
    spans.flatMap(span => {
      const before = line.rest().slice(0, span.start);
      const after = line.rest().slice(span.end);
      line.doubt(span);
      if (
        carriage.test(after) ||
        each.test(after) ||
        shillings.test(after) ||
        noPrice.test(after) ||
        estimate.test(before) ||
        /^ ?-\d/.test(after) ||
        /^ ?\(?\?/.test(after)
      )
        return [];
      const found = read(span, unnamed);
      return found ? [{ ...found, isSaid: brought.test(before) }] : [];
    });
  let found = amounts(pricedSpans(line), false);
  if (found.length === 0)
    found = amounts(
      line.matches(unpriced).map(match => spanOf(match)),
      true,
    );
  const said = found.filter(({ isSaid }) => isSaid);
  const [one, another] = said.length === 1 ? said : found;
  if (!one || (another && said.length !== 1)) return null;
  line.take(one.span);
  return one;
};

/** True where a text has a date that can be read day first or month first. */
export const hasOpenDay = (text: string, orders: DateOrders): boolean =>
  [...text.matchAll(numericDay)].some(
    match => isAmbiguousDate(match[0]) && !orders[match.groups?.sign as DateSign],
  );

/** The price of a cell that holds nothing else; null where that is not to be told. */
export const priceOfCell = (text: string, own: Currency): Price | null => {
  const named = currencyOfAmount(text, own);
  if (named === null) return null;
  const currency = named === 'none' ? own : named;
  const money = readMoney(text, currency);
  return money.ok && money.value > 0 ? { minor: money.value, currency } : null;
};

/** The day of a cell that holds nothing else; null where that is not to be told. */
export const dayOfCell = (text: string, orders: DateOrders, today: IsoDate): IsoDate | null => {
  const sign = /\d([./-])\d/.exec(text)?.[1] as DateSign | undefined;
  const read = readDate(text, (sign && orders[sign]) ?? null, today);
  return read.ok ? read.value : null;
};
