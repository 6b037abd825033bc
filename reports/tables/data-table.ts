import type { IsoDate, Minor } from '../../valuation/types.ts';

/**
 * A cell's value before it is written: text, a whole number, an amount in minor units with its
 * currency, or a date.
 */
export type CellValue =
  | { kind: 'text'; text: string }
  | { kind: 'number'; number: number }
  | { kind: 'amount'; minor: Minor; currency: string }
  | { kind: 'date'; date: IsoDate }
  | null;

/** A list that goes out as a file: its columns and, row by row, its cells in their order. */
export interface DataTable {
  /** The name of the sheet. */
  name: string;
  columns: readonly { name: string; width: number }[];
  /** How many rows there are. */
  count: number;
  rows: () => Iterable<readonly CellValue[]>;
}

export const textCell = (value: string | null | undefined): CellValue =>
  value ? { kind: 'text', text: value } : null;
export const numberCell = (value: number | null | undefined): CellValue =>
  value === null || value === undefined ? null : { kind: 'number', number: value };
export const dateCell = (value: IsoDate | null | undefined): CellValue =>
  value ? { kind: 'date', date: value } : null;
export const amountCell = (
  minor: Minor | null | undefined,
  currency: string | null | undefined,
): CellValue =>
  minor === null || minor === undefined || !currency ? null : { kind: 'amount', minor, currency };

/** A column of a list whose rows are `Row`s. */
export interface ListColumn<Row> {
  name: string;
  width: number;
  value: (row: Row) => CellValue;
}

/** A list as a table: each row's cells by the columns. */
export const listTable = <Row>(
  name: string,
  columns: readonly ListColumn<Row>[],
  list: readonly Row[],
): DataTable => ({
  name,
  columns,
  count: list.length,
  *rows() {
    for (const row of list) yield columns.map(column => column.value(row));
  },
});

/** The forms in which a list goes out. */
export const tableFormats = ['csv', 'xlsx', 'jsonl'] as const;
export type TableFormat = (typeof tableFormats)[number];
