import type { Cell, TableRow } from '../types.ts';
import { type ZipEntry, zipText } from './zip.ts';

/** A cell that goes down over several lines: its column from 0, its first line and its last. */
export interface MergedCell {
  column: number;
  from: number;
  to: number;
}

/** "AB12" → 27, the place of its column counted from 0. */
export const columnOf = (reference: string): number => {
  let column = 0;
  for (const letter of reference) {
    const code = letter.charCodeAt(0);
    if (code < 65 || code > 90) break;
    column = column * 26 + code - 64;
  }
  return column - 1;
};

/** Merged cells of a sheet at most; further ones count for their first line alone. */
const mostMerged = 200_000;
const longestTag = 300;
const mergedTag =
  /<(?:[\w.-]+:)?mergeCell\s[^<>]{0,200}?\bref\s*=\s*["']([A-Z]{1,3})(\d{1,7}):([A-Z]{1,3})(\d{1,7})["']/g;

/**
 * The cells that are merged downwards, by their first columns and lines. They stand at the end of a sheet's
 * XML, so that it is looked through for them. Source: ECMA-376 part 1, 18.3.1.54.
 */
export const mergedDown = async (entry: ZipEntry): Promise<MergedCell[]> => {
  const merged: MergedCell[] = [];
  let text = '';
  for await (const piece of zipText(entry)) {
    text += piece;
    let read = 0;
    for (const tag of text.matchAll(mergedTag)) {
      const [whole, left = '', from, , to] = tag;
      read = tag.index + whole.length;
      // One that goes over several columns as well holds its text in the first of them.
      if (Number(to) > Number(from) && merged.length < mostMerged)
        merged.push({ column: columnOf(left), from: Number(from), to: Number(to) });
    }
    text = text.slice(Math.max(read, text.length - longestTag));
  }
  return merged.sort((a, b) => a.from - b.from);
};

/** Tells rows, in their order, what is merged down into them. */
export class MergedRows {
  readonly #merged: readonly MergedCell[];
  #next = 0;
  readonly #open = new Map<number, { to: number; from: number; cell: Cell }>();

  constructor(merged: readonly MergedCell[]) {
    this.#merged = merged;
  }

  /** The row with the cells that are merged over it and lines above or below it. */
  of(row: TableRow): TableRow {
    for (let at = this.#merged[this.#next]; at && at.from <= row.line; at = this.#merged[++this.#next]) {
      const cell = at.from === row.line ? (row.cells[at.column] ?? null) : null;
      this.#open.set(at.column, { to: at.to, from: at.from, cell });
    }
    if (this.#open.size === 0) return row;
    const merged: NonNullable<TableRow['merged']> = new Map();
    for (const [column, { to, from, cell }] of this.#open)
      if (to < row.line) this.#open.delete(column);
      else if (cell !== null) merged.set(column, { cell, from, to });
    return merged.size > 0 ? { ...row, merged } : row;
  }
}
