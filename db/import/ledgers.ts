import type { Transaction } from 'kysely';
import type { IsoDate } from '../../valuation/types.ts';
import type { Collection } from '../collection.ts';
import { runBulk } from '../history/history.ts';
import type { Schema } from '../schema.ts';
import { cellText } from './files/cell-text.ts';
import { openTable } from './files/table.ts';
import { type LedgerKind, ledgerColumns } from './ledgers/columns.ts';
import { recordOfRow } from './ledgers/jobs.ts';
import { ledgerJudges } from './ledgers/judges.ts';
import { Refusal, type Row } from './ledgers/row.ts';
import { ImportFileError, type Rejection } from './types.ts';

/** What became of the rows of a list of lots, expenses, disposals, decisions or jobs. */
export interface LedgerResult {
  accepted: number;
  duplicates: number;
  rejected: Rejection[];
  notes: string[];
  /** Our columns that the file has, in its order. */
  columns: string[];
  /** The first rows, and the first of those that are rejected. */
  sample: LedgerRow[];
}

/** A row of such a list, by our columns, and what becomes of it. */
export interface LedgerRow {
  line: number;
  outcome: 'accepted' | 'duplicate' | 'rejected';
  column: string | null;
  reason: string | null;
  values: Record<string, string>;
}

/** Rows that are shown of those to come, and of the rejected ones. */
const mostShown = 20;

export interface LedgerRequest {
  collection: Collection;
  file: Blob;
  name: string;
  as: LedgerKind;
  dryRun: boolean;
  /** ISO instant of entering. */
  at: string;
  /** Runs inside the action, with the cars that were sold. */
  afterwards?: (trx: Transaction<Schema>, soldCarIds: number[]) => Promise<void>;
  signal?: AbortSignal | undefined;
  onProgress?: ((done: number, total: number, stage: string) => void) | undefined;
}

interface ReadLine {
  line: number;
  row: Row;
  values: Record<string, string>;
}

/** A try that is to leave nothing behind. */
class OnlyTried extends Error {}

const plainHeading = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');

/**
 * Takes in a list as it goes out: each row by the columns of its own names, in any order. A row that is there
 * already with the same content is a duplicate; one that cannot stand is rejected with its line and the
 * reason; the rows of a job are taken together or not at all. Nothing that is there is changed. One action, of which a cancel takes nothing; `dryRun` takes nothing
 * either. Throws ImportFileError where the file is no such list.
 */
export const importLedger = async (request: LedgerRequest): Promise<LedgerResult> => {
  const { collection, file, name, as, dryRun, at, afterwards, signal, onProgress } = request;
  const table = await openTable(file, name, {
    as: 'lot',
    map: {},
    decimal: {},
    dateOrder: {},
    headingLine: 1,
  });
  const columns = ledgerColumns[as];
  const places = new Map(
    table.headings.flatMap((heading, index) => {
      const own = columns.find(column => column.name === plainHeading(heading));
      return own ? [[own.name, index] as const] : [];
    }),
  );
  const missing = columns.filter(column => column.required && !places.has(column.name));
  if (missing.length > 0)
    throw new ImportFileError(
      `${name} is not a list of ${as}: it has no column ${missing.map(column => `"${column.name}"`).join(' and ')}. Its first line names its columns: ${columns.map(column => column.name).join(', ')}.`,
    );
  const idle = table.headings.filter(
    heading => !columns.some(column => column.name === plainHeading(heading)),
  );
  const result: LedgerResult = {
    accepted: 0,
    duplicates: 0,
    rejected: [],
    notes: idle.length > 0 ? [`Not read: ${idle.map(heading => `"${heading}"`).join(', ')}.`] : [],
    columns: [...places].sort(([, a], [, b]) => a - b).map(([column]) => column),
    sample: [],
  };
  let done = 0;
  const soldCarIds: number[] = [];
  const notes = new Set(result.notes);
  const shown: Record<'taken' | 'left', LedgerRow[]> = { taken: [], left: [] };
  const breathe = async (): Promise<void> => {
    if (++done % 200 !== 0) return;
    await new Promise(resolve => setImmediate(resolve));
    signal?.throwIfAborted();
    onProgress?.(done, 0, 'reading rows');
  };
  const take = async (trx: Transaction<Schema>): Promise<LedgerResult> => {
    const judge = await ledgerJudges[as](trx, {
      at,
      today: at.slice(0, 10) as IsoDate,
      soldCarIds,
      has: column => places.has(column),
      note: text => notes.add(text),
    });
    /** Takes the rows of one record: all of them, or none. */
    const settle = async (lines: readonly ReadLine[]): Promise<void> => {
      const show = (
        line: ReadLine,
        outcome: LedgerRow['outcome'],
        column: string | null,
        reason: string | null,
      ) => {
        if (outcome === 'rejected') result.rejected.push({ line: line.line, column, reason: reason ?? '' });
        const among = outcome === 'rejected' ? shown.left : shown.taken;
        if (among.length < mostShown)
          among.push({ line: line.line, outcome, column, reason, values: line.values });
      };
      try {
        const isNew = await judge(lines.map(({ row }) => row));
        if (isNew) result.accepted += lines.length;
        else result.duplicates += lines.length;
        for (const line of lines) show(line, isNew ? 'accepted' : 'duplicate', null, null);
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        const blamed = lines[error.row]!;
        for (const line of lines)
          if (line === blamed) show(line, 'rejected', error.column, error.message);
          else
            show(line, 'rejected', null, `this belongs to the row in line ${blamed.line}, which is rejected`);
      }
    };
    const records = new Map<string, ReadLine[]>();
    for await (const batch of table.rows())
      for (const { line, cells, not } of batch) {
        if (not === 'headings') continue;
        const row = (column: string): string => {
          const place = places.get(column);
          return place === undefined ? '' : cellText(cells[place] ?? null);
        };
        if (cells.every(cell => cellText(cell) === '')) continue;
        const values = Object.fromEntries(result.columns.map(column => [column, row(column).slice(0, 200)]));
        const read = { line, row, values };
        // The rows of a job may stand anywhere in its list.
        if (as !== 'jobs') await settle([read]);
        else {
          const record = recordOfRow(row, line);
          const others = records.get(record);
          if (others) others.push(read);
          else records.set(record, [read]);
        }
        await breathe();
      }
    for (const lines of records.values()) {
      await settle(lines);
      await breathe();
    }
    result.notes = [...notes];
    result.rejected.sort((one, other) => one.line - other.line);
    result.sample = [...shown.taken, ...shown.left].sort((one, other) => one.line - other.line);
    signal?.throwIfAborted();
    if (dryRun) throw new OnlyTried();
    await afterwards?.(trx, soldCarIds);
    return result;
  };
  try {
    return await runBulk(collection, `Imported ${as} from ${name}`, at, take);
  } catch (error) {
    if (error instanceof OnlyTried) return result;
    throw error;
  }
};
