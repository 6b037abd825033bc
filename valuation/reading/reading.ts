/**
 * A cell as a file or a person gives it; spreadsheets keep numbers, dates and amounts of a currency
 * apart from text.
 */
export type Cell = string | number | Date | boolean | AmountCell | null;

/** A spreadsheet's number with the currency sign that its format shows beside it, such as `€` or `kr`. */
export interface AmountCell {
  number: number;
  sign: string;
}

/** What a cell came to. `note` says what was made of a word that others use otherwise. */
export type Reading<T> = { ok: true; value: T; note?: string } | { ok: false; reason: string };

/** A cell that was understood wholly. */
export const understood = <T>(value: T, note?: string): Reading<T> =>
  note === undefined ? { ok: true, value } : { ok: true, value, note };

/** A cell that was not; `reason` is shown to the owner. */
export const notUnderstood = (reason: string): Reading<never> => ({ ok: false, reason });

export const isAmountCell = (cell: Cell): cell is AmountCell =>
  typeof cell === 'object' && cell !== null && !(cell instanceof Date);

/** A number as a spreadsheet shows it: the binary noise beyond 15 digits left out. */
export const shownNumber = (number: number): string => String(Number(number.toPrecision(15)));
