import { namesWithin, nameWithin } from '../../../valuation/reading/names/name-within.ts';
import type { Lexicon } from '../../../valuation/reading/sale-line/lexicon.ts';
import { likelyName } from '../../../valuation/reading/sale-line/likely-name.ts';
import { readSaleLine } from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { plain } from '../../reference/plain.ts';
import type { UnreadText } from '../unread.ts';

/** Those of a row's texts in which a name may stand. */
const namingTexts = (unread: readonly UnreadText[]): string[] =>
  unread
    .filter(({ field, holds }) => !holds && (field === '' || field === 'casting'))
    .map(({ text }) => text);

/** The one name that stands in these texts; null where none does plainly, undefined where several do. */
const known = (texts: readonly string[], names: ReadonlySet<string>): string | null | undefined => {
  const isName = (piece: string) => names.has(plain(piece));
  const standing = texts.flatMap(text => namesWithin(text, isName).map(({ name }) => plain(name)));
  if (new Set(standing).size > 1) return undefined;
  return texts.flatMap(text => nameWithin(text, isName) ?? [])[0] ?? null;
};

/** The words with a capital that are likeliest to name the car. */
const likely = (texts: readonly string[]): string | null => {
  const name = likelyName(texts);
  return name && /^\p{Lu}/u.test(name) ? name : null;
};

const nameIn = (texts: readonly string[], names: ReadonlySet<string>, likeliest: string | null) => {
  const name = known(texts, names);
  return name === undefined ? null : (name ?? likeliest);
};

/** The one of these names, in plain text, that what was not understood gives, as it is written there. */
export const nameOfUnread = (unread: readonly UnreadText[], names: ReadonlySet<string>): string | null => {
  const texts = namingTexts(unread);
  const name = nameIn(texts, names, likely(texts));
  return name !== null && names.has(plain(name)) ? name : null;
};

/**
 * For rows without a name, given by what of each was not understood: the name under which it waits, one of
 * these names (in plain text) or the words with a capital that are likeliest to name its car; null where
 * there are none, and where a name that the reference has stands there: such a row was left open for a reason.
 */
export const namesOfUnread = (
  rows: readonly (readonly UnreadText[])[],
  names: Iterable<string>,
  inReference: ReadonlySet<string>,
): (string | null)[] => {
  const texts = rows.map(namingTexts);
  const isOpen = (text: string) => namesWithin(text, piece => inReference.has(plain(piece))).length > 0;
  const likeliest = texts.map(row => (row.some(isOpen) ? null : likely(row)));
  const all = new Set([...names, ...likeliest.flatMap(name => (name === null ? [] : plain(name)))]);
  return texts.map((row, at) => (row.some(isOpen) ? null : nameIn(row, all, likeliest[at] ?? null)));
};

/**
 * The casting that what was not understood names, read as a line of a sale is, with the words that name it;
 * null where it names none, or not plainly one.
 */
export const castingUnread = (
  unread: readonly UnreadText[],
  lexicon: Lexicon,
): { castingId: number; name: string } | null => {
  const texts = namingTexts(unread);
  if (texts.length === 0) return null;
  // No day, price or place is looked for, so that neither the currency nor the day counts.
  const line = readSaleLine(texts.join(', '), lexicon, {
    currency: 'XXX',
    orders: {},
    today: '9999-12-31',
    day: null,
    price: null,
    source: ' ',
  });
  const span = line.spans.find(({ field }) => field === 'casting');
  return line.castingId !== null && span
    ? { castingId: line.castingId, name: line.text.slice(span.start, span.end).trim() }
    : null;
};

/** A piece of text without the name in it. */
const withoutName = (piece: string, name: string): string => {
  const at = piece.toLowerCase().indexOf(name.toLowerCase());
  return at < 0
    ? piece
    : `${piece.slice(0, at)} ${piece.slice(at + name.length)}`.replace(/\s+/g, ' ').trim();
};

/** What was not understood, now without the names that are. */
export const withoutNames = <Text extends { text: string }>(
  unread: readonly Text[],
  names: readonly string[],
): Text[] =>
  unread.flatMap(cell => {
    const text = names.reduce(withoutName, cell.text);
    return text === '' ? [] : [{ ...cell, text }];
  });
