import type { Transaction } from 'kysely';
import type { Collection } from '../collection.ts';
import { runBulk } from '../history/history.ts';
import { nextInventoryNumbers } from '../records/cars-write.ts';
import { insertLot } from '../records/lots.ts';
import { readReportingCurrency } from '../records/settings.ts';
import type { Schema } from '../schema.ts';
import { ourColumns } from './columns.ts';
import { openTable, type Table } from './files/table.ts';
import { type Judge, type Judged, judgeRow, type ReadRow, readRow, rowView } from './judges/judge.ts';
import { lotJudge } from './judges/lot.ts';
import { referenceJudge } from './judges/reference.ts';
import { salesJudge } from './judges/sales.ts';
import { learnFormats, type Mapping, mapColumns } from './mapping.ts';
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

interface Watch {
  /** ISO instant: of entering, and the latest day that a sale can have. */
  at: string;
  signal?: AbortSignal | undefined;
  onProgress?: ((done: number, total: number, stage: string) => void) | undefined;
}

const sampleRows = 25;
const shownRejections = 25;
/** Notes of single rows beyond this many are counted, not listed. */
const mostNotes = 200;

const openMapped = async (file: Blob, name: string, options: ImportOptions, signal?: AbortSignal) => {
  const table = await openTable(file, name, options);
  const mapping = mapColumns(table, options);
  return { table, mapping, ...(await learnFormats(table, mapping, options, signal)) };
};

const judgeFor = async (
  collection: Collection,
  db: Collection['db'] | Transaction<Schema>,
  mapping: Mapping,
  options: RunOptions,
  {
    at,
    lotId,
    freeNumbers,
    onMissing,
  }: { at: string; lotId: number | null; freeNumbers: string[]; onMissing: (casting: string) => void },
): Promise<Judge> => {
  if (options.as === 'lot') return lotJudge(collection, db, { lotId, freeNumbers, at });
  if (options.as === 'reference') return referenceJudge(collection, db);
  return salesJudge(collection, db, mapping, {
    addReference: options.addReference,
    currency: options.currency ?? (await readReportingCurrency(db)),
    today: at.slice(0, 10),
    onMissing,
  });
};

/** Judges every row in order; `onRow` sees each that is not blank. Yields to the event loop now and then. */
const judgeAll = async (
  table: Table,
  mapping: Mapping,
  judge: Judge,
  rows: number,
  { signal, onProgress }: Pick<Watch, 'signal' | 'onProgress'>,
  onRow: (row: ReadRow, judged: Judged) => void,
): Promise<void> => {
  let done = 0;
  for await (const batch of table.rows())
    for (const given of batch) {
      const row = readRow(given);
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

/**
 * Shows how a file would be taken in, without taking anything: its encoding, columns and formats, and what becomes of its rows.
 * Throws ImportFileError where the file cannot be read as a table or a required column is missing.
 */
export const previewImport = async (
  collection: Collection,
  file: Blob,
  name: string,
  options: RunOptions,
  watch: Watch,
): Promise<ImportPreview> => {
  let mapping: Mapping;
  const table = await openTable(file, name, options);
  try {
    mapping = mapColumns(table, options);
  } catch (error) {
    if (!(error instanceof MissingColumnError)) throw error;
    return unmappedPreview(table, name, options, error.message);
  }
  const { rows } = await learnFormats(table, mapping, options, watch.signal);
  const missing = new Set<string>();
  const judge = await judgeFor(collection, collection.db, mapping, options, {
    at: watch.at,
    lotId: options.lotId ?? null,
    freeNumbers: [],
    onMissing: casting => missing.size < 1000 && missing.add(casting),
  });
  const counts = { accepted: 0, rejected: 0, duplicates: 0, unidentified: 0 };
  const sample: ImportRowView[] = [];
  let shown = 0;
  await judgeAll(table, mapping, judge, rows, watch, (row, judged) => {
    counts[judged.outcome === 'duplicate' ? 'duplicates' : judged.outcome]++;
    if (judged.outcome === 'accepted' && judged.unidentified) counts.unidentified++;
    const extra = judged.outcome === 'rejected' && shown < shownRejections;
    if (sample.length < sampleRows || extra) {
      sample.push(rowView(mapping, row, judged));
      if (judged.outcome === 'rejected') shown++;
    }
  });
  return {
    ...described(table, name, options),
    columns: mapping.columns,
    rows,
    counts,
    sample,
    missingCastings: [...missing],
    warnings: [...table.warnings, ...mapping.warnings],
  };
};

const described = (table: Table, name: string, options: ImportOptions) => ({
  file: name,
  format: table.format,
  encoding: table.encoding,
  separator: table.separator,
  sheets: table.sheets,
  sheet: table.sheet,
  headingLine: table.headingLine,
  ourColumns: ourColumns[options.as].map(({ name: column, required, help }) => ({
    name: column,
    required,
    help,
  })),
});

/** The preview of a file whose headings do not say enough yet: its columns, to be mapped. */
const unmappedPreview = async (
  table: Table,
  name: string,
  options: ImportOptions,
  problem: string,
): Promise<ImportPreview> => {
  const mapping = mapColumns(table, options, false);
  const { rows } = await learnFormats(table, mapping, options);
  return {
    ...described(table, name, options),
    columns: mapping.columns,
    rows,
    counts: { accepted: 0, rejected: 0, duplicates: 0, unidentified: 0 },
    sample: [],
    missingCastings: [],
    warnings: [problem, ...table.warnings, ...mapping.warnings],
  };
};

/**
 * Takes a file in as one action. Rows that cannot be read are rejected with line, column and reason, the others are taken whole;
 * a cancel or a failure takes nothing. `dryRun` judges only. `afterwards` runs inside the action with the ids of new cars' lot.
 */
export const runImport = async (
  collection: Collection,
  file: Blob,
  name: string,
  options: RunOptions,
  watch: Watch,
  afterwards?: (trx: Transaction<Schema>, lotId: number | null) => Promise<void>,
): Promise<ImportResult> => {
  const { table, mapping, rows, numbers, unnumbered } = await openMapped(file, name, options, watch.signal);
  const result: ImportResult = {
    accepted: 0,
    rejected: [],
    duplicates: 0,
    duplicateLines: [],
    unidentified: 0,
    addedCastings: 0,
    notes: [...table.warnings, ...mapping.warnings],
  };
  const missing = new Set<string>();
  let notes = 0;
  const take = async (
    db: Collection['db'] | Transaction<Schema>,
    lotId: number | null,
    freeNumbers: string[],
    write: boolean,
  ) => {
    const judge = await judgeFor(collection, db, mapping, options, {
      at: watch.at,
      lotId,
      freeNumbers,
      onMissing: casting => missing.add(casting.toLowerCase()),
    });
    await judgeAll(table, mapping, judge, rows, watch, (row, judged) => {
      if (judged.outcome === 'rejected')
        result.rejected.push({ line: row.line, column: judged.column, reason: judged.reason });
      else if (judged.outcome === 'duplicate') {
        result.duplicates++;
        result.duplicateLines.push(row.line);
      } else {
        if (write) judged.write();
        result.accepted++;
        if (judged.unidentified) result.unidentified++;
        if (judged.note && ++notes <= mostNotes) result.notes.push(`Line ${row.line}: ${judged.note}.`);
      }
    });
  };
  const finish = (): ImportResult => {
    if (notes > mostNotes) result.notes.push(`${notes - mostNotes} more notes of this kind are not listed.`);
    result.addedCastings = options.as === 'sales' && options.addReference ? missing.size : 0;
    return result;
  };

  if (options.dryRun) {
    const known = options.lot && (await lotNamed(collection.db, options.lot.name));
    await take(collection.db, options.lotId ?? known?.id ?? null, [], false);
    return finish();
  }
  return runBulk(collection, labelOf(options, name), watch.at, async trx => {
    const lot = options.as === 'lot' ? await lotFor(trx, options, watch.at) : null;
    const lotId = lot?.id ?? null;
    const freeNumbers =
      options.as === 'lot' && unnumbered > 0
        ? (await nextInventoryNumbers(trx, unnumbered + numbers.size, lotId)).filter(
            free => !numbers.has(free.toLowerCase()),
          )
        : [];
    numbers.clear();
    await take(trx, lotId, freeNumbers, true);
    // A lot of which no car could be read is not made either.
    if (lot?.isNew && result.accepted === 0) await trx.deleteFrom('lot').where('id', '=', lot.id).execute();
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

const lotNamed = (db: Collection['db'] | Transaction<Schema>, name: string) =>
  db.selectFrom('lot').select(['id', 'name']).where('name', '=', name).executeTakeFirst();

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
    const found = await trx
      .selectFrom('lot')
      .select(['id', 'name'])
      .where('id', '=', options.lotId)
      .executeTakeFirst();
    if (!found)
      throw new ImportFileError(
        'The lot to import into is no longer there. Choose another, or make a new one.',
      );
    return { ...found, isNew: false };
  }
  const { lot } = options;
  if (!lot) return null;
  const known = await lotNamed(trx, lot.name);
  if (known) return { ...known, isNew: false };
  const id = await insertLot(trx, lot, at);
  return { id, name: lot.name, isNew: true };
};
