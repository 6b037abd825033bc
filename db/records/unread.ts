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
  /** It is understood, as this value of this field, and of no use yet without another text of its row. */
  holds?: { field: string; value: string };
  /** Its row says in the column of the finish that this is original, which goes before what a word says of the text. */
  isOriginal?: true;
}

/** A text that an owner's word gave a meaning: which fields of its row it filled, and with what. */
export interface HeardText {
  /** As the file names it. */
  column: string;
  text: string;
  /** The field for which it was read, by the names of imports; '' where it was for none. */
  field: string;
  /** By field, each value as its field writes it; none where it means nothing. */
  gave: Record<string, string>;
  /** True where the scale of its column was said, and not the text itself. */
  byScale?: true;
  /** The text of its row that had waited for it. */
  freed?: UnreadText;
}

/**
 * True where a word about the finish ("repaint") is not settled: it leaves open what the car, or what was paid
 * for it, would be compared with.
 */
export const hasOpenFinish = (unread: readonly UnreadText[]): boolean =>
  unread.some(({ field }) => field === 'finish_state');

/** Unread texts as a row keeps them; damaged ones are left out. */
export const readUnread = (json: string): UnreadText[] => {
  if (json === '[]') return [];
  const list = readJson(json);
  if (!Array.isArray(list)) return [];
  return list.flatMap(entry => {
    const { column, text, field, holds, isOriginal } = (entry ?? {}) as Record<string, unknown>;
    if (typeof column !== 'string' || typeof text !== 'string') return [];
    const held = heldIn(holds);
    return [
      {
        column,
        text,
        field: typeof field === 'string' ? field : '',
        ...(held && { holds: held }),
        ...(isOriginal === true && { isOriginal: true as const }),
      },
    ];
  });
};

const heldIn = (holds: unknown): UnreadText['holds'] => {
  const { field, value } = (holds ?? {}) as Record<string, unknown>;
  return typeof field === 'string' && typeof value === 'string' ? { field, value } : undefined;
};

/** Texts that words gave a meaning, as a row keeps them; damaged ones are left out. */
export const readHeard = (json: string): HeardText[] => {
  if (json === '[]') return [];
  const list = readJson(json);
  if (!Array.isArray(list)) return [];
  return list.flatMap(entry => {
    const { column, text, field, gave, byScale, freed } = (entry ?? {}) as Record<string, unknown>;
    if (typeof column !== 'string' || typeof text !== 'string' || typeof gave !== 'object') return [];
    const [waited] = freed === undefined ? [] : readUnread(JSON.stringify([freed]));
    const values = Object.entries(gave ?? {}).filter(([, value]) => typeof value === 'string');
    return [
      {
        column,
        text,
        field: typeof field === 'string' ? field : '',
        gave: Object.fromEntries(values) as Record<string, string>,
        ...(byScale === true && { byScale: true as const }),
        ...(waited && { freed: waited }),
      },
    ];
  });
};

/** As a row keeps them. */
export const heardToJson = (heard: readonly HeardText[]): string =>
  heard.length === 0 ? '[]' : JSON.stringify(heard);

/** As a row keeps them. */
export const unreadToJson = (
  unread: readonly (Pick<UnreadText, 'column' | 'text'> & Partial<UnreadText>)[],
): string => (unread.length === 0 ? '[]' : JSON.stringify(unread));

/** A column's heading as headings are compared. */
export const plainHeading = (heading: string): string =>
  plain(heading)
    .replace(/[:*]+$/, '')
    .trim();

/** True where a word of the owner's is said of this text in this column. */
export const isSaidOf = (word: OwnWord, { column, text }: { column: string; text: string }): boolean =>
  plain(word.text) === plain(text) &&
  (word.column === '*' || plainHeading(word.column) === plainHeading(column));
