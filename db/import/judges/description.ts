import type { Kysely } from 'kysely';
import { isAboutFinish } from '../../../valuation/reading/propose.ts';
import { isOfGoods } from '../../../valuation/reading/sale-line/kind.ts';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { nameAlone, plainNameIn } from '../../../valuation/reading/sale-line/plain-name.ts';
import { type DateOrders, dateSigns } from '../../../valuation/reading/sale-line/price-and-day.ts';
import {
  carFields,
  readSaleLine,
  type SaleLine,
} from '../../../valuation/reading/sale-line/read-sale-line.ts';
import type { Currency, IsoDate } from '../../../valuation/types.ts';
import { loadSaleLexicon } from '../../reference/sale-lexicon.ts';
import type { Schema } from '../../schema.ts';
import { isOfNames } from '../heading-words.ts';
import type { Mapping } from '../mapping.ts';
import type { ImportKind } from '../types.ts';
import type { Judged, RowReader } from './judge.ts';

const mostRemembered = 5000;
const counted =
  /^\s*(?:(\d{1,2}) ?[x×] ?(?=\p{L})|[x×] ?(\d{1,2}) )|(?:^|[\s,])(?:[x×] ?(\d{1,2})|(\d{1,2}) ?[x×])(?=\s*$|\s*[,;(]|\s+[-–])/u;

const countWords = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
/** A count before the name, as in "Two Silver Kites"; it may as well begin a feature, as in "three lamps". */
const countedFirst = new RegExp(
  `^\\s*(?:an? )?(?:(?:lot|set|group|bunch|box|bag) of )?(?:an? )?(?:(pair|couple) of |(\\d{1,2}|${countWords.slice(1).join('|')}) )(?=\\p{L})`,
  'iu',
);
const countOf = (word: string): number =>
  Number(word) || Math.max(2, countWords.indexOf(word.toLowerCase()) + 1);

interface Description {
  line: SaleLine;
  /** Why its text stays with the car as a whole: it names several. */
  open: string | null;
  /** What stands where a name does, where no casting is known. */
  name: string | null;
  quantity: string | null;
}

interface Describing {
  as: ImportKind;
  mapping: Mapping;
  /** Of the import, before those that are saved. */
  words: OwnWord[];
  /** Of amounts that name none. */
  currency: Currency;
  today: IsoDate;
}

const several: Judged & { outcome: 'rejected' } = {
  outcome: 'rejected',
  column: 'description',
  reason: 'the text names several cars: give each a row of its own',
  not: 'lot',
};

/**
 * Why a text of several cars is that of one record; null where it names no casting, so that nothing says
 * which cars they are.
 */
const whyOpen = ({ named }: SaleLine): string | null => {
  if (named.length === 0) return null;
  return named.length === 1
    ? 'the text tells of several cars, and not plainly of how many: say how many, or give each a row of its own'
    : 'the text names several castings: say which one this car is, and give the others rows of their own';
};

/**
 * Notes what the owner's words said of parts of a cell, each part once; what the row does not take of it is
 * not noted.
 */
export const hearPieces = (row: RowReader, column: string, heard: SaleLine['heard']): void => {
  for (const [text, pieces] of Map.groupBy(heard, piece => piece.text)) {
    const gave = pieces.flatMap(({ field, value }) => (field === null ? [] : [[field, value] as const]));
    row.hear(column, text, Object.fromEntries(gave));
  }
};

const isSold =
  /(?<!\p{L})(?:sold|verkauft|vendue?|venduto|vendido|verkocht)(?!\p{L})(?! (?:(?:to )?me|as|in|with|under|by)(?!\p{L}))/iu;
const isBought =
  /(?<!\p{L})(?:bought|paid|cost|gave|gekauft|bezahlt|achete|achet[ée]|comprad[oa]|gekocht)(?!\p{L})/iu;

/** The amount of a text on one of the owner's own cars: what it cost, or what it brought where it says "sold". */
const givePrice = (row: RowReader, text: string, price: string): void => {
  if (!isSold.test(text)) row.give('price_paid', price, 'description');
  else if (!isBought.test(text)) row.give('sold_for', price, 'description');
  else row.miss('description', `whether ${price} is what it cost or what it brought is not said`, price, '');
};

/**
 * Reads the column that describes cars in words, as lines of sales are read, and gives its fields to the row;
 * what stands in a column of its own goes before it. What was not understood stays with the row. Returns what
 * refuses the row, or null; and null for a file that has no such column.
 */
export const describer = async (
  db: Kysely<Schema>,
  { as, mapping, words, currency, today }: Describing,
): Promise<((row: RowReader) => Judged | null) | null> => {
  const place = mapping.places.get('description');
  if (place === undefined) return null;
  const lexicon = await loadSaleLexicon(db, words);
  const { heading = '', dateOrder = null } = mapping.columns[place] ?? {};
  /** Under such a heading a car is called what the cell says, in small letters too. */
  const namesCars = isOfNames(heading);
  const orders: DateOrders = dateOrder ? Object.fromEntries(dateSigns.map(sign => [sign, dateOrder])) : {};
  const known = new Map<string, Description>();
  const read = (text: string, { hasPrice, hasDay }: { hasPrice: boolean; hasDay: boolean }): Description => {
    const key = `${hasPrice} ${hasDay} ${text}`;
    const before = known.get(key);
    if (before) return before;
    const count = as === 'lot' ? counted.exec(text) : null;
    let quantity = count?.slice(1).find(Boolean) ?? null;
    const one = count ? text.slice(0, count.index) + text.slice(count.index + count[0].length) : text;
    const lineOf = (words: string, oneCar = false) =>
      readSaleLine(words, lexicon, {
        currency,
        orders,
        today,
        column: heading,
        ...((as !== 'sales' || hasDay) && { day: null }),
        ...((as === 'reference' || hasPrice) && { price: null }),
        ...(as !== 'sales' && { source: ' ' }),
        ...(oneCar && { said: { fields: {}, oneCar } }),
      });
    let line = lineOf(one);
    if (as === 'lot' && line.not === 'lot') {
      const first = countedFirst.exec(one);
      const each = first && lineOf(one.slice(first[0].length));
      if (each && each.castingId !== null && each.not !== 'lot' && each.not !== 'not a car') {
        line = each;
        quantity = String(countOf(first[1] ?? first[2] ?? ''));
      }
    }
    const open = as === 'lot' && line.not === 'lot' ? whyOpen(line) : null;
    if (open !== null) line = lineOf(one, true);
    const isCar = line.not !== 'lot' && line.not !== 'not a car';
    const isNameless = as !== 'reference' && isCar && line.castingId === null;
    const name = isNameless ? (plainNameIn(line) ?? (namesCars ? nameAlone(line) : null)) : null;
    const description = { line, open, name, quantity };
    if (known.size >= mostRemembered) known.clear();
    known.set(key, description);
    return description;
  };
  return row => {
    const text = row.text('description');
    if (text === '') return null;
    const { line, open, name, quantity } = read(text, {
      hasPrice: row.has(as === 'sales' ? 'price' : 'price_paid'),
      hasDay: row.has('sold_on'),
    });
    const { fields, not } = line;
    if (not === 'not a car' || (line.castingId === null && isOfGoods(text)))
      return { ...several, reason: `"${text.slice(0, 100)}" is not a car`, not: 'not a car' };
    if (not === 'lot') return several;
    if (!row.has('casting')) row.isDescribed = true;
    if (open !== null) {
      // Which of the facts is said of which car nobody can tell.
      row.miss('description', open, undefined, 'casting');
      if (line.named.length === 1 && fields.casting) row.give('casting', fields.casting, 'description');
      return null;
    }
    for (const field of carFields) {
      const value = field === 'grade' && fields.grade ? `C${fields.grade}` : fields[field];
      if (value !== undefined) row.give(field, value, 'description');
    }
    if (name !== null && !row.has('casting')) row.give('casting', name, 'description');
    if (as === 'sales') {
      if (fields.price && fields.currency)
        row.give('price', `${fields.currency} ${fields.price}`, 'description');
      if (fields.sold_on) row.give('sold_on', fields.sold_on, 'description');
      if (fields.source?.trim()) row.give('source', fields.source, 'description');
    } else if (as === 'lot') {
      if (fields.price && fields.currency) givePrice(row, text, `${fields.currency} ${fields.price}`);
      if (quantity !== null) row.give('quantity', quantity, 'description');
    }
    hearPieces(row, 'description', line.heard);
    for (const { text: left } of line.unread) {
      const rest = name === null ? left : left.replace(name, '').trim();
      if (rest)
        row.miss(
          'description',
          `"${rest}" is not understood`,
          rest,
          isAboutFinish(rest) ? 'finish_state' : '',
        );
    }
    return null;
  };
};
