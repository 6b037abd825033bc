import type { Kysely, Transaction } from 'kysely';
import type { Currency } from '../../valuation/types.ts';
import { runBulk } from '../history/history.ts';
import { inventoryNumberer } from '../records/cars-write.ts';
import { countCarsOfLot, findLot, findLotNamed, insertLot, removeLot } from '../records/lots.ts';
import { settleWords } from '../records/settle-words.ts';
import { saveWords } from '../records/words.ts';
import type { Schema } from '../schema.ts';
import { ourColumns, recogniseHeading } from './columns.ts';
import { openTable } from './files/table.ts';
import { asideView, type ReadRow, rowView } from './judges/judge.ts';
import { WordBook } from './judges/word-book.ts';
import { learnFormats } from './learn.ts';
import { type Mapping, mapColumns } from './mapping.ts';
import { Purchases } from './purchases.ts';
import { habitsOf, type ImportRequest, judgeAll, judgeFor, notUnderstoodOf, type Target } from './reading.ts';
import {
  ImportFileError,
  type ImportOptions,
  type ImportPreview,
  type ImportResult,
  type ImportRowView,
  MissingColumnError,
  type NotUnderstood,
  type RunOptions,
} from './types.ts';

export type { ImportRequest } from './reading.ts';
export type * from './types.ts';
export { ImportFileError } from './types.ts';

/** What an import has made, for those that follow from it. */
export interface MadeByImport {
  lotId: number | null;
  /** Other lots, whose cost is to be shared out. */
  toShare: number[];
  soldCarIds: number[];
}

const sampleRows = 25;
const shownRejections = 25;
/** Notes of single rows beyond this many are counted, not listed. */
const mostNotes = 200;

/** What the headings say of the whole file: that it is of another kind than it is imported as. */
const kindWarnings = ({ columns, places }: Mapping, { as }: ImportOptions): string[] => {
  if (as === 'sales') return [];
  const idle = columns.filter(column => column.ours === null);
  const gives = (ours: string) =>
    idle.find(({ heading }) => recogniseHeading('sales', heading)?.ours === ours);
  const at = (ours: string) => columns[places.get(ours) ?? -1];
  // Who sold a car knows what it brought: a day of sale beside one price is rather a sale that was seen.
  const isSales = as === 'lot' && places.has('sold_on') && !places.has('sold_for');
  const [day, price] = isSales ? [at('sold_on'), at('price_paid')] : [gives('sold_on'), gives('price')];
  return day && price
    ? [
        `"${day.heading}" and "${price.heading}" look like the day and the price of sales: if this is a list of sales that you saw, import it as sales.`,
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
  const formats = await learnFormats(table, mapping, options, signal);
  const { rows, learned, questions } = formats;
  const counts = { accepted: 0, rejected: 0, duplicates: 0, unidentified: 0 };
  const sample: ImportRowView[] = [];
  const missing = new Set<string>();
  let notUnderstood: NotUnderstood[] = [];
  if (problem.length === 0) {
    const habits = await habitsOf(collection.read.db, mapping, formats, options);
    const texts = await notUnderstoodOf(collection.read.db, habits);
    const judge = await judgeFor(request, collection.read.db, habits, {
      ...(await dryTarget(request)),
      onMissing: casting => missing.size < 1000 && missing.add(casting),
    });
    let shown = 0;
    await judgeAll({ table, habits, judge, rows, request }, (row, outcome) => {
      const { judged, reader } = outcome;
      if (judged.outcome !== 'rejected') texts.add(row.line, reader.unread);
      counts[judged.outcome === 'duplicate' ? 'duplicates' : judged.outcome]++;
      if (judged.outcome === 'accepted' && judged.unidentified) counts.unidentified++;
      const extra = judged.outcome === 'rejected' && shown < shownRejections;
      if (sample.length < sampleRows || extra) {
        sample.push(rowView(habits, row, outcome));
        if (judged.outcome === 'rejected') shown++;
      }
    });
    notUnderstood = texts.list();
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
    notUnderstood,
    learned,
    questions,
    warnings: [...problem, ...table.warnings, ...mapping.warnings, ...kindWarnings(mapping, options)],
  };
};

/**
 * Takes a file in as one action. Rows that say nothing of what every record must have are rejected with line, column and reason; of the others
 * everything that is understood is taken, and the rest is saved as it is written;
 * a cancel or a failure takes nothing. `dryRun` judges only. `afterwards` runs inside the action with what it made.
 */
export const runImport = async (
  request: ImportRequest & {
    afterwards?: (trx: Transaction<Schema>, made: MadeByImport) => Promise<void>;
    /** The action that this import is a part of; without one it is an action of its own. */
    within?: Transaction<Schema>;
  },
): Promise<ImportResult> => {
  const { collection, file, name, options, at, signal, afterwards, within } = request;
  const table = await openTable(file, name, options);
  const mapping = mapColumns(table, options);
  const formats = await learnFormats(table, mapping, options, signal);
  const { rows, numbers, learned, questions } = formats;
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
  const shown: ImportRowView[] = [];
  if (options.rows) result.rows = shown;
  let notes = 0;
  const take = async (db: Kysely<Schema>, target: Omit<Target, 'onMissing'>) => {
    const habits = await habitsOf(db, mapping, formats, options);
    const texts = await notUnderstoodOf(db, habits);
    const judge = await judgeFor(request, db, habits, {
      ...target,
      onMissing: casting => missing.add(casting.toLowerCase()),
    });
    const onAside = (row: ReadRow, not: string) => {
      if (options.rows) shown.push(asideView(row, not));
    };
    await judgeAll(
      { table, habits, judge, rows, request },
      (row, outcome) => {
        const { judged, reader } = outcome;
        if (options.rows) shown.push(rowView(habits, row, outcome));
        if (judged.outcome === 'rejected') {
          result.rejected.push({ line: row.line, column: judged.column, reason: judged.reason });
          return;
        }
        texts.add(row.line, reader.unread);
        if (judged.outcome === 'duplicate') {
          result.duplicates++;
          result.duplicateLines.push(row.line);
          return;
        }
        if (target.write) judged.write();
        result.accepted++;
        if (judged.unidentified) result.unidentified++;
        for (const note of judged.notes)
          if (++notes <= mostNotes) result.notes.push(`Line ${row.line}: ${note}.`);
      },
      onAside,
    );
    result.notUnderstood = texts.list();
  };
  const finish = (): ImportResult => {
    if (notes > mostNotes) result.notes.push(`${notes - mostNotes} more notes of this kind are not listed.`);
    result.addedCastings = options.as === 'sales' && options.addReference ? missing.size : 0;
    return result;
  };

  if (options.dryRun) {
    await take(collection.read.db, await dryTarget(request));
    return finish();
  }
  const takeIn = async (trx: Transaction<Schema>): Promise<ImportResult> => {
    const given = options.words ?? [];
    if (given.length > 0) await saveWords(trx, new WordBook(given).words, at);
    // What the new words settle of earlier imports is settled first: the same rows are then known again.
    const settled = await settleWords(trx, new WordBook(given).words, at);
    const lot = options.as === 'lot' ? await lotFor(trx, options, at) : null;
    const lotId = lot?.id ?? null;
    const purchases = purchasesOf(request, lot?.currency);
    await take(trx, {
      lotId,
      lotName: lot?.name ?? null,
      nextNumber: options.as === 'lot' ? await numbererBeside(trx, lotId, numbers) : () => '',
      purchases,
      write: true,
      sees: within !== undefined || settled.carIds.length + settled.saleIds.length > 0,
    });
    if (lot) result.lot = { id: lot.id, name: lot.name };
    const bought = lot && (await purchases.settle(trx, { ...lot, isPriced: isPriced(options, lot) }, at));
    if (lot) await tidyLot(trx, lot, result);
    if (lot && !lot.isNew && options.lot?.costs.length)
      result.notes.push(
        `The lot "${lot.name}" was there already; its price and costs were left as they are.`,
      );
    if (bought && bought.lots > 0)
      result.notes.push(
        `${bought.lots === 1 ? 'One lot of its own holds' : `${bought.lots} lots of their own hold`} the cars that were bought together, by seller and day; the others were bought one by one.`,
      );
    if (result.accepted > 0)
      await afterwards?.(trx, {
        lotId: result.lot?.id ?? null,
        toShare: bought?.toShare ?? [],
        soldCarIds: bought?.soldCarIds ?? [],
      });
    return finish();
  };
  return within ? takeIn(within) : runBulk(collection, labelOf(options, name), at, takeIn);
};

/** A lot of which no car could be read is not made, nor is one whose cars all went to lots of their own. */
const tidyLot = async (trx: Transaction<Schema>, lot: LotOfImport, result: ImportResult): Promise<void> => {
  if (!lot.isNew || (await countCarsOfLot(trx, lot.id)) > 0) return;
  await removeLot(trx, lot.id);
  delete result.lot;
};

/** True where the owner has said what the whole lot cost. */
const isPriced = ({ lot, lotId }: RunOptions, { isNew }: LotOfImport): boolean =>
  lotId === undefined && isNew && !!lot?.costs.length;

const purchasesOf = ({ options, name }: ImportRequest, currency: Currency | undefined): Purchases =>
  new Purchases(
    options.lot?.name ?? name,
    currency ?? options.lot?.currency ?? options.currency ?? 'USD',
    options.lotId === undefined,
  );

/** Rows that are only looked at. */
const dryTarget = async (request: ImportRequest): Promise<Omit<Target, 'onMissing'>> => {
  const { collection, options } = request;
  const known = options.lot && (await findLotNamed(collection.read.db, options.lot.name));
  return {
    lotId: options.lotId ?? known?.id ?? null,
    lotName: options.lot?.name ?? null,
    nextNumber: () => '',
    purchases: purchasesOf(request, known?.currency),
    write: false,
    sees: false,
  };
};

/** Free numbers that the file itself does not bring. */
const numbererBeside = async (
  trx: Transaction<Schema>,
  lotId: number | null,
  numbers: Set<string>,
): Promise<() => string> => {
  const next = await inventoryNumberer(trx, lotId);
  return () => {
    for (;;) {
      const free = next();
      if (!numbers.has(free.toLowerCase())) return free;
    }
  };
};

const labelOf = (options: RunOptions, name: string): string => {
  if (options.as === 'lot') return `Imported the lot "${options.lot?.name ?? name}"`;
  return options.as === 'sales' ? `Imported sale records from ${name}` : `Imported reference from ${name}`;
};

interface LotOfImport {
  id: number;
  name: string;
  currency: Currency;
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
    return { id: found.id, name: found.name, currency: found.currency, isNew: false };
  }
  const { lot } = options;
  if (!lot) return null;
  const known = await findLotNamed(trx, lot.name);
  if (known) return { id: known.id, name: known.name, currency: known.currency, isNew: false };
  const id = await insertLot(trx, lot, at);
  return { id, name: lot.name, currency: lot.currency, isNew: true };
};
