import { currencyDecimals } from '../../money.ts';
import type { Currency, IsoDate } from '../../types.ts';
import { isMonth } from '../date.ts';
import { featureColumnsBut } from '../feature-columns.ts';
import { readBasePaint, readFinishState, readGrade, readParts, readYear } from '../words.ts';
import { castingOf, findNames } from './casting.ts';
import { takeBasePaint, takeColour, takeCountry, takePartColours } from './features.ts';
import { takeBareGrade, takeGrade } from './grade.ts';
import { kindOf, type NotASale, unsold } from './kind.ts';
import type { Lexicon, OwnWord } from './lexicon.ts';
import { likelyName } from './likely-name.ts';
import { takeMetal } from './metal.ts';
import { takeDenied, takeNamed, takeTint } from './named-features.ts';
import { takePackaging } from './packaging.ts';
import { takeAccessory, takeParts } from './parts.ts';
import { type DateOrders, type Price, takeDay, takePrice } from './price-and-day.ts';
import { isPlaceNoun, takeNamedFair, takeNamedPlace, takeOffer, takeSource } from './source.ts';
import { takeFinish, takeRanges, takeYear } from './state.ts';
import { escaped, fold, type Line, newLine, type Span, spanOf, words } from './text.ts';
import { fillers } from './vocabulary.ts';

/** The fields that say which car it is; the finish of its body goes with its colour. */
export const identityFields = [
  'casting',
  'release_name',
  'release_year',
  ...featureColumnsBut('body_finish'),
] as const;

/** The fields that say all that is said of a car. */
export const carFields = [
  ...identityFields,
  'grade',
  'finish_state',
  'missing_parts',
  'reproduction_parts',
  'packaging',
  'packaging_grade',
  'metal',
] as const;

/** The fields of a sale line, by their names in imports; a field that is not known is absent. */
export const saleLineFields = [...carFields, 'price', 'currency', 'sold_on', 'source'] as const;
export type SaleLineField = (typeof saleLineFields)[number];

export interface SaleLine {
  text: string;
  /**
   * Grades, years and prices as text; a price in whole units of its currency with all its decimals; parts
   * with commas between.
   */
  fields: Partial<Record<SaleLineField, string>>;
  /** Where each field was read. */
  spans: (Span & { field: SaleLineField })[];
  castingId: number | null;
  /** The known castings that it names, in any number. */
  named: readonly number[];
  /** Where no casting is known: the words that are likeliest to be its name. A proposal, and no field. */
  name: string | null;
  price: Price | null;
  /** Its price names no currency: the owner's own was taken. */
  unnamedCurrency: boolean;
  unread: { column: string; text: string }[];
  /**
   * What the owner's words said of it: the text in question, as it stands, and the field that it gave; null
   * for none.
   */
  heard: { text: string; field: string | null; value: string }[];
  /** Why it is no sale of one car, or null. */
  not: NotASale | null;
}

export interface SaleLineHabits {
  /** Of amounts that name no currency. */
  currency: Currency;
  orders: DateOrders;
  /** No sale lies after it. */
  today: IsoDate;
  /** What the text is called where something in it was not understood. */
  column?: string;
  /** From other cells of the row, where they give it: the text is then not searched for it. */
  day?: IsoDate | null;
  price?: Price | null;
  source?: string;
  /** A figure that stands alone is a grade, as other lines show. */
  bareGrades?: boolean;
  /** Names of places where sales were seen, as they are written. */
  places?: readonly string[];
  said?: SaidOfLine;
}

/** What the owner says of one line; it stands against the text. */
export interface SaidOfLine {
  /** By field, in the form of `SaleLine.fields`; an empty text says that the field is not known. */
  fields: Partial<Record<SaleLineField, string>>;
  /** The casting, where it is one of the reference's. */
  castingId?: number | undefined;
  /** It is one car's sale, whatever the words look like. */
  oneCar?: boolean | undefined;
}

/** What is told of a line that is no sale of one car. */
const ofTheSale: readonly SaleLineField[] = ['price', 'currency', 'sold_on'];

/** An amount in minor units as figures with the decimals of its currency. */
export const priceText = ({ minor, currency }: Price): string => {
  const decimals = currencyDecimals(currency);
  const figures = String(minor).padStart(decimals + 1, '0');
  return decimals === 0 ? figures : `${figures.slice(0, -decimals)}.${figures.slice(-decimals)}`;
};

/** An amount as `priceText` writes it, in minor units; null where it is none, or not more than nothing. */
export const pricedAt = (amount: string, currency: Currency): Price | null => {
  const [, whole = '', fraction = ''] = /^(\d{1,12})(?:\.(\d+))?$/.exec(amount.trim()) ?? [];
  const decimals = currencyDecimals(currency);
  if (!whole || /[1-9]/.test(fraction.slice(decimals))) return null;
  const minor = Number(whole + fraction.slice(0, decimals).padEnd(decimals, '0'));
  return minor > 0 && Number.isSafeInteger(minor) ? { minor, currency } : null;
};

/**
 * What the owner says that a text means, read by the reader of its field; null where that reader
 * does not take it.
 */
export const meaningOf = ({ field, meaning }: Pick<OwnWord, 'field' | 'meaning'>): string | null => {
  const readers: Record<string, (text: string) => { ok: boolean; value?: unknown }> = {
    grade: readGrade,
    finish_state: readFinishState,
    base_paint: readBasePaint,
    missing_parts: readParts,
    reproduction_parts: readParts,
    release_year: readYear,
  };
  const reader = readers[field];
  if (!reader) return meaning.trim() || null;
  const read = reader(meaning);
  return read.ok ? (Array.isArray(read.value) ? read.value.join(',') : String(read.value)) || null : null;
};

/** The number that a line of a list begins with, as "3." and "3)": it says nothing of the car. */
const takeNumberOfLine = (line: Line): void => {
  const number = /^\s*\d{1,3}[.)] +(?=[("'‘“]?(\p{L}+))/u.exec(line.rest());
  if (number && !isMonth(number[1] ?? '')) line.take({ start: 0, end: number[0].length });
};

/**
 * Reads a line or title of a sale that somebody saw, with the words of the reference and the owner's own.
 * What is not a known casting never becomes one; what is said in two ways, or in a word that people mean
 * differently, is unread. Deterministic.
 */
export const readSaleLine = (text: string, lexicon: Lexicon, habits: SaleLineHabits): SaleLine => {
  const { currency, orders, today, column = 'line', said = { fields: {} } } = habits;
  const line = newLine(text);
  const fields: SaleLine['fields'] = {};
  for (const field of saleLineFields)
    if (said.fields[field] && field !== 'price' && field !== 'currency') fields[field] = said.fields[field];
  const spans: SaleLine['spans'] = [];
  const put = (field: string, value: string, span: Span | null) => {
    const known = saleLineFields.find(one => one === field);
    if (!known || fields[known] !== undefined || said.fields[known] !== undefined) return;
    fields[known] = value;
    if (span) spans.push({ ...span, field: known });
  };

  const day = habits.day === undefined ? takeDay(line, orders, today) : null;
  const soldOn = said.fields.sold_on ?? habits.day ?? day?.value ?? null;
  if (soldOn) put('sold_on', soldOn, day?.span ?? null);
  const found = habits.price === undefined ? takePrice(line, currency) : null;
  let price = habits.price ?? found?.value ?? null;
  takeNumberOfLine(line);
  const notSold = line.matches(unsold);
  for (const match of notSold) line.take(spanOf(match));
  if (notSold.length > 0) price = null;
  if (said.fields.price !== undefined || (price && said.fields.currency))
    price = pricedAt(
      said.fields.price ?? (price ? priceText(price) : ''),
      said.fields.currency || (price?.currency ?? currency),
    );
  if (price) {
    fields.price = priceText(price);
    fields.currency = price.currency;
    const { span } = found ?? {};
    if (span && !said.fields.price) spans.push({ ...span, field: 'price' }, { ...span, field: 'currency' });
  } else if (found) line.doubt(found.span);
  if (habits.source) put('source', habits.source, null);

  if (!habits.source && lexicon.ownWords.some(word => isPlaceNoun(word.text)))
    takeNamedFair(line, part => findNames(newLine(part), lexicon).length > 0, put);
  const heard: SaleLine['heard'] = [];
  for (const word of lexicon.ownWords) {
    if (word.column !== '*' && fold(word.column) !== fold(column)) continue;
    const meaning = word.meaning === '' ? '' : meaningOf(word);
    if (meaning === null || !fold(word.text).trim()) continue;
    for (const match of line.matches(words(escaped(fold(word.text).trim())))) {
      const { start, end } = spanOf(match);
      heard.push({ text: text.slice(start, end).trim(), field: meaning ? word.field : null, value: meaning });
      if (meaning) put(word.field, meaning, { start, end });
      line.take(spanOf(match));
    }
  }

  const names = findNames(line, lexicon);
  const kind = said.oneCar ? null : kindOf(line, names, lexicon);
  if (!habits.source && price && fields.source === undefined) takeOffer(line, found?.isSaid ?? true, put);
  if (!habits.source && fields.source === undefined) takeSource(line, put, habits.places);
  let castingId = said.castingId ?? castingNamed(lexicon, fields.casting);
  if (castingId === null && said.fields.casting === undefined) castingId = castingOf(names, line, lexicon);
  if (kind) castingId = null;
  const casting = castingId === null ? null : (lexicon.castings.get(castingId) ?? null);
  for (const { name, span } of names)
    if (casting && name.castingId === casting.id) {
      fields.casting = casting.name;
      spans.push({ ...span, field: 'casting' });
      if (name.isRelease) put('release_name', name.name, span);
      line.take(span);
    } else line.doubt(span);
  if (casting) fields.casting = casting.name;
  else if (!said.fields.casting) delete fields.casting;

  takeRanges(line, lexicon);
  takeYear(line, casting, put);
  takeBasePaint(line, put);
  takeDenied(line, casting, put);
  takePackaging(line, put);
  takeParts(line, lexicon, casting, put);
  takeNamed(line, lexicon, casting, put);
  takeCountry(line, lexicon, casting, put);
  takePartColours(line, lexicon, casting, put);
  takeTint(line, lexicon, casting, put);
  takeAccessory(line, lexicon, casting, put);
  takeMetal(line, put);
  takeGrade(line, put);
  takeFinish(line, put);
  if (habits.bareGrades && fields.grade === undefined) takeBareGrade(line, put);
  takeColour(line, lexicon, casting, put);
  if (!habits.source && fields.source === undefined && said.fields.source === undefined)
    takeNamedPlace(line, put);

  const not: NotASale | null = kind ?? (price === null ? 'no price' : soldOn === null ? 'no date' : null);
  const isCar = kind === null;
  const unread = isCar ? line.leftover(fillers) : [];
  const kept = saleLineFields.filter(
    field => fields[field] !== undefined && (isCar || ofTheSale.includes(field)),
  );
  return {
    text,
    fields: Object.fromEntries(kept.map(field => [field, fields[field]])),
    spans: spans
      .filter(({ field }) => kept.includes(field))
      .sort((a, b) => a.start - b.start || a.end - b.end),
    castingId,
    named: [...new Set(names.map(({ name }) => name.castingId))],
    name: isCar && casting === null ? (fields.casting ?? likelyName(unread)) : null,
    price,
    unnamedCurrency: price !== null && !said.fields.currency && (found?.unnamed ?? false),
    unread: unread.map(left => ({ column, text: left })),
    heard,
    not,
  };
};

const castingNamed = (lexicon: Lexicon, name: string | undefined): number | null => {
  if (!name) return null;
  const ids = new Set(lexicon.names.filter(one => fold(one.name) === fold(name)).map(one => one.castingId));
  const [only] = ids;
  return ids.size === 1 ? (only ?? null) : null;
};
