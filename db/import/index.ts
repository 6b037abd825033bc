import type { Kysely, Transaction } from 'kysely';
import type { Collection } from '../collection.ts';
import { runBulk } from '../history/history.ts';
import { nextInventoryNumbers } from '../records/cars-write.ts';
import { findLot, findLotNamed, insertLot, removeLot } from '../records/lots.ts';
import { readReportingCurrency } from '../records/settings.ts';
import type { Schema } from '../schema.ts';
import { ourColumns, recogniseHeading } from './columns.ts';
import { openTable, type Table } from './files/table.ts';
import { type Judge, judgeRow, type ReadRow, readRow, rowView } from './judges/judge.ts';
import { lotJudge } from './judges/lot.ts';
import { referenceJudge } from './judges/reference.ts';
import { salesJudge } from './judges/sales.ts';
import { learnFormats } from './learn.ts';
import { type Mapping, mapColumns } from './mapping.ts';
import {
  ImportFileError,
  type ImportOptions,
  type ImportPreview,
  type ImportResult,
  type ImportRowView,
  MissingColumnError,
  type RunOptions,
} from './types.ts';

export type * from './types.ts';
export { ImportFileError } from './types.ts';

/** One import: which file, how it is read, and who waits for it. */
export interface ImportRequest {
  collection: Collection;
  file: Blob;
  /** The file's own name, as its owner knows it. */
  name: string;
  options: RunOptions;
  /** ISO instant: of entering, and the latest day that a sale can have. */
  at: string;
  signal?: AbortSignal | undefined;
  onProgress?: ((done: number, total: number, stage: string) => void) | undefined;
}

const sampleRows = 25;
const shownRejections = 25;
/** Notes of single rows beyond this many are counted, not listed. */
const mostNotes = 200;

interface Target {
  lotId: number | null;
  freeNumbers: string[];
  /** True inside the import's action. */
  write: boolean;
  onMissing: (casting: string) => void;
}

const judgeFor = async (
  { collection, options, at }: ImportRequest,
  db: Kysely<Schema>,
  mapping: Mapping,
  { lotId, freeNumbers, write, onMissing }: Target,
): Promise<Judge> => {
  const sqlite = write ? collection.write.sqlite : null;
  if (options.as === 'lot') return lotJudge(db, { lotId, freeNumbers, at, sqlite });
  if (options.as === 'reference') return referenceJudge(db, sqlite);
  return salesJudge(db, mapping, {
    addReference: options.addReference,
    currency: options.currency ?? (await readReportingCurrency(db)),
    today: at.slice(0, 10),
    reader: collection.read.sqlite,
    sqlite,
    onMissing,
  });
};

interface Judging {
  table: Table;
  mapping: Mapping;
  judge: Judge;
  /** How many rows there are, as far as is known. */
  rows: number;
  request: ImportRequest;
}

/** Judges every row in order; `onRow` sees each that is not blank. Yields to the event loop now and then. */
const judgeAll = async (
  { table, mapping, judge, rows, request: { signal, onProgress } }: Judging,
  onRow: (row: ReadRow, judged: ReturnType<typeof judgeRow>) => void,
): Promise<void> => {
  let done = 0;
  for await (const batch of table.rows())
    for (const given of batch) {
      const row = given.not === undefined ? readRow(given) : null;
      if (!row) continue;
      onRow(row, judgeRow(judge, mapping, row));
      done++;
      if (done % 500 === 0) {
        await new Promise(resolve => setImmediate(resolve));
        signal?.throwIfAborted();
        onProgress?.(done, rows, 'reading rows');
      }
    }
  signal?.throwIfAborted();
};

/** What the headings say of the whole file: that it is of another kind than it is imported as. */
const kindWarnings = ({ columns }: Mapping, { as }: ImportOptions): string[] => {
  if (as === 'sales') return [];
  const idle = columns.filter(column => column.ours === null);
  const gives = (ours: string) =>
    idle.find(({ heading }) => recogniseHeading('sales', heading)?.ours === ours);
  const [day, price] = [gives('sold_on'), gives('price')];
  return day && price
    ? [
        `"${day.heading}" and "${price.heading}" look like the day and the price of sales, and are not read: if this is a list of sales, import it as sales.`,
      ]
    : [];
};

/** Their columns that hold something and are not read, by name. */
const unreadColumns = ({ columns }: Mapping): string[] => {
  const idle = columns.filter(column => column.ours === null && column.samples.length > 0);
  return idle.length === 0
    ? []
    : [
        `Not read: ${idle.map(({ heading }) => `"${heading}"`).join(', ')}. Say what a column means, or leave it.`,
      ];
};

/**
 * Shows how a file would be taken in, without taking anything: its encoding, columns and formats, and what becomes of its rows.
 * Throws ImportFileError where the file cannot be read as a table or a required column is missing.
 */
export const previewImport = async (request: ImportRequest): Promise<ImportPreview> => {
  const { collection, file, name, options, signal } = request;
  const table = await openTable(file, name, options);
  let mapping: Mapping;
  let problem: string[] = [];
  try {
    mapping = mapColumns(table, options);
  } catch (error) {
    if (!(error instanceof MissingColumnError)) throw error;
    // The headings do not say enough yet: the columns are shown, to be mapped.
    mapping = mapColumns(table, options, false);
    problem = [error.message];
  }
  const { rows, learned, questions } = await learnFormats(table, mapping, options, signal);
  const counts = { accepted: 0, rejected: 0, duplicates: 0, unidentified: 0 };
  const sample: ImportRowView[] = [];
  const missing = new Set<string>();
  if (problem.length === 0) {
    const judge = await judgeFor(request, collection.read.db, mapping, {
      lotId: options.lotId ?? null,
      freeNumbers: [],
      write: false,
      onMissing: casting => missing.size < 1000 && missing.add(casting),
    });
    let shown = 0;
    await judgeAll({ table, mapping, judge, rows, request }, (row, outcome) => {
      const { judged } = outcome;
      counts[judged.outcome === 'duplicate' ? 'duplicates' : judged.outcome]++;
      if (judged.outcome === 'accepted' && judged.unidentified) counts.unidentified++;
      const extra = judged.outcome === 'rejected' && shown < shownRejections;
      if (sample.length < sampleRows || extra) {
        sample.push(rowView(mapping, row, outcome, table.sheet));
        if (judged.outcome === 'rejected') shown++;
      }
    });
  }
  const { format, encoding, encodingBecause, separator, sheets, sheet, headingLine } = table;
  return {
    file: name,
    format,
    encoding,
    encodingBecause,
    separator,
    sheets,
    sheet,
    headingLine,
    ourColumns: ourColumns[options.as].map(({ name: column, required, help }) => ({
      name: column,
      required,
      help,
    })),
    columns: mapping.columns,
    rows,
    counts,
    sample,
    missingCastings: [...missing],
    notUnderstood: [],
    learned,
    questions,
    warnings: [...problem, ...table.warnings, ...mapping.warnings, ...kindWarnings(mapping, options)],
  };
};

/**
 * Takes a file in as one action. Rows that cannot be read are rejected with line, column and reason, the others are taken whole;
 * a cancel or a failure takes nothing. `dryRun` judges only. `afterwards` runs inside the action with the ids of new cars' lot.
 */
export const runImport = async (
  request: ImportRequest & { afterwards?: (trx: Transaction<Schema>, lotId: number | null) => Promise<void> },
): Promise<ImportResult> => {
  const { collection, file, name, options, at, signal, afterwards } = request;
  const table = await openTable(file, name, options);
  const mapping = mapColumns(table, options);
  const { rows, numbers, unnumbered, learned, questions } = await learnFormats(
    table,
    mapping,
    options,
    signal,
  );
  const result: ImportResult = {
    accepted: 0,
    rejected: [],
    duplicates: 0,
    duplicateLines: [],
    unidentified: 0,
    addedCastings: 0,
    notUnderstood: [],
    learned,
    questions,
    notes: [
      ...table.warnings,
      ...mapping.warnings,
      ...kindWarnings(mapping, options),
      ...unreadColumns(mapping),
    ],
  };
  const missing = new Set<string>();
  let notes = 0;
  const take = async (db: Kysely<Schema>, target: Omit<Target, 'onMissing'>) => {
    const judge = await judgeFor(request, db, mapping, {
      ...target,
      onMissing: casting => missing.add(casting.toLowerCase()),
    });
    await judgeAll({ table, mapping, judge, rows, request }, (row, { judged }) => {
      if (judged.outcome === 'rejected')
        result.rejected.push({ line: row.line, column: judged.column, reason: judged.reason });
      else if (judged.outcome === 'duplicate') {
        result.duplicates++;
        result.duplicateLines.push(row.line);
      } else {
        if (target.write) judged.write();
        result.accepted++;
        if (judged.unidentified) result.unidentified++;
        for (const note of judged.notes)
          if (++notes <= mostNotes) result.notes.push(`Line ${row.line}: ${note}.`);
      }
    });
  };
  const finish = (): ImportResult => {
    if (notes > mostNotes) result.notes.push(`${notes - mostNotes} more notes of this kind are not listed.`);
    result.addedCastings = options.as === 'sales' && options.addReference ? missing.size : 0;
    return result;
  };

  if (options.dryRun) {
    const known = options.lot && (await findLotNamed(collection.read.db, options.lot.name));
    await take(collection.read.db, {
      lotId: options.lotId ?? known?.id ?? null,
      freeNumbers: [],
      write: false,
    });
    return finish();
  }
  return runBulk(collection, labelOf(options, name), at, async trx => {
    const lot = options.as === 'lot' ? await lotFor(trx, options, at) : null;
    const lotId = lot?.id ?? null;
    const freeNumbers =
      options.as === 'lot' && unnumbered > 0
        ? (await nextInventoryNumbers(trx, unnumbered + numbers.size, lotId)).filter(
            free => !numbers.has(free.toLowerCase()),
          )
        : [];
    numbers.clear();
    await take(trx, { lotId, freeNumbers, write: true });
    // A lot of which no car could be read is not made either.
    if (lot?.isNew && result.accepted === 0) await removeLot(trx, lot.id);
    else if (lot) result.lot = { id: lot.id, name: lot.name };
    if (lot && !lot.isNew && options.lot?.costs.length)
      result.notes.push(
        `The lot "${lot.name}" was there already; its price and costs were left as they are.`,
      );
    if (result.accepted > 0) await afterwards?.(trx, lotId);
    return finish();
  });
};

const labelOf = (options: RunOptions, name: string): string => {
  if (options.as === 'lot') return `Imported the lot "${options.lot?.name ?? name}"`;
  return options.as === 'sales' ? `Imported sale records from ${name}` : `Imported reference from ${name}`;
};

interface LotOfImport {
  id: number;
  name: string;
  isNew: boolean;
}

const lotFor = async (
  trx: Transaction<Schema>,
  options: RunOptions,
  at: string,
): Promise<LotOfImport | null> => {
  if (options.lotId !== undefined) {
    const found = await findLot(trx, options.lotId);
    if (!found)
      throw new ImportFileError(
        'The lot to import into is no longer there. Choose another, or make a new one.',
      );
    return { id: found.id, name: found.name, isNew: false };
  }
  const { lot } = options;
  if (!lot) return null;
  const known = await findLotNamed(trx, lot.name);
  if (known) return { id: known.id, name: known.name, isNew: false };
  const id = await insertLot(trx, lot, at);
  return { id, name: lot.name, isNew: true };
};
