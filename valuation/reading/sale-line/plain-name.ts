import { isPraise } from './praise.ts';
import type { SaleLine } from './read-sale-line.ts';

/** Sorts of vehicle, which in a name are often written small, as in "Fire engine". Common practice, no source. */
const sorts =
  'ambulance|box|buggy|bus|cab|car|carrier|cart|coach|coupe|coupé|crane|digger|engine|estate|float|hearse|jeep|loader|lorry|pickup|racer|roadster|saloon|sedan|tanker|taxi|tipper|tractor|trailer|transporter|truck|van|wagon';
const plainName = new RegExp(
  `^\\p{Lu}[\\p{L}'’.-]*(?: (?:(?:of |the |de )*\\p{Lu}[\\p{L}'’.-]*|II|III|(?:${sorts})(?!\\p{L})))*`,
  'u',
);

/** What begins so tells of several things, and names none. */
const multitude =
  /^(?:quantity|qty|selection|collection|number|range|group|box|bag|set|pair|couple) of(?!\p{L})/iu;

/** What begins so says that it is not known, or that it stands above, and names none. */
const notKnown =
  /^(?:un(?:known|identified|sure|bekannt)|not sure|maybe|perhaps|same|ditto|as above|as before|various|assorted|another|others?|inconnu|(?:one|two|three|four|five|six|several|some|many) (?:others?|more|of))(?!\p{L})/iu;

/**
 * What stands in a text of which no casting is known where a name does: one to four words with capitals with
 * which the text begins, and nothing of theirs understood otherwise. Null where that is not plain. It is a
 * name that waits to be settled, no casting.
 */
export const plainNameIn = ({ text, unread, spans }: SaleLine): string | null => {
  const first = unread[0]?.text;
  if (first === undefined) return null;
  const at = text.indexOf(first);
  const isYearOnly = spans.every(({ field, start }) => start > at || field === 'release_year');
  if (at < 0 || !isYearOnly || /[\p{L}]/u.test(text.slice(0, at))) return null;
  const name = plainName.exec(first)?.[0];
  if (!name || name.length < 3 || multitude.test(first) || notKnown.test(first)) return null;
  const words = name.split(' ');
  const rest = first.slice(name.length);
  if (words.length > 4 || words.some(isPraise) || /^ ?\p{Lu}/u.test(rest)) return null;
  return name;
};

/**
 * What stands in a cell under a heading for names, such as "Car" or "Model", where nothing in it is understood:
 * one to four words in any letters. Null where it is more than that.
 */
export const nameAlone = ({ text, spans }: SaleLine): string | null => {
  const name = text.trim();
  const words = name.split(/\s+/);
  const isOne = spans.length === 0 && words.length <= 4 && /^\p{L}[\p{L}'’. -]{2,}$/u.test(name);
  return isOne && !words.some(isPraise) && !notKnown.test(name) ? name : null;
};
