import type { OwnWord } from '../../valuation/reading/sale-line/lexicon.ts';
import { readJson } from '../codec.ts';
import { plain } from '../reference/plain.ts';

/** A text that was not understood, saved as it was written beside the car or the sale that it belongs to. */
export interface UnreadText {
  /** As the file names it. */
  column: string;
  text: string;
  /** The field for which it was read, by the names of imports; '' where that is not known. */
  field: string;
}

/** Unread texts as a row keeps them; damaged ones are left out. */
export const readUnread = (json: string): UnreadText[] => {
  if (json === '[]') return [];
  const list = readJson(json);
  if (!Array.isArray(list)) return [];
  return list.flatMap(entry => {
    const { column, text, field } = (entry ?? {}) as Record<string, unknown>;
    return typeof column === 'string' && typeof text === 'string'
      ? [{ column, text, field: typeof field === 'string' ? field : '' }]
      : [];
  });
};

/** As a row keeps them. */
export const unreadToJson = (unread: readonly { column: string; text: string; field?: string }[]): string =>
  unread.length === 0 ? '[]' : JSON.stringify(unread);

/** A column's heading as headings are compared. */
export const plainHeading = (heading: string): string =>
  plain(heading)
    .replace(/[:*]+$/, '')
    .trim();

/** True where a word of the owner's is said of this text in this column. */
export const isSaidOf = (word: OwnWord, { column, text }: { column: string; text: string }): boolean =>
  plain(word.text) === plain(text) &&
  (word.column === '*' || plainHeading(word.column) === plainHeading(column));
