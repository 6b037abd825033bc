import type { Kysely, Transaction } from 'kysely';
import { runBulk } from '../history/history.ts';
import { carsByLot } from '../records/lots.ts';
import { followAll } from '../records/names/follow-reference.ts';
import { sayWords } from '../records/own-words/say-words.ts';
import { coloursOnly } from '../reference/colour-names.ts';
import type { Schema } from '../schema.ts';
import { CellCounter } from './cell-counter.ts';
import { openTable } from './files/table.ts';
import { asideView, type ReadRow, rowView } from './judges/judge.ts';
import { WordBook } from './judges/word-book.ts';
import { learnFormats } from './learn.ts';
import { dryTarget, isPriced, lotFor, numbererBeside, purchasesOf, tidyLot } from './lot-of-import.ts';
import { mapColumns } from './mapping.ts';
import { habitsOf, type ImportRequest, judgeAll, judgeFor, notUnderstoodOf, type Target } from './reading.ts';
import { kindWarnings, unreadColumns } from './said-of-file.ts';
import type { ImportResult, ImportRowView, RunOptions } from './types.ts';

export { previewImport } from './preview.ts';
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

/** Notes of single rows beyond this many are counted, not listed. */
const mostNotes = 200;

/**
 * Takes a file in as one action. Rows that say nothing of what every record must have are rejected with line,
 * column and reason; of the others everything that is understood is taken, and the rest is saved as it is
 * written; a cancel or a failure takes nothing. `dryRun` judges only. `afterwards` runs inside the action
 * with what it made.
 */
export const runImport = async (
  request: ImportRequest & {
    afterwards?: (trx: Transaction<Schema>, made: MadeByImport) => Promise<void>;
    /** The action that this import is a part of; without one it is an action of its own. */
    within?: Transaction<Schema>;
  },
): Promise<ImportResult> => {
  const { collection, file, name, options, at, signal, afterwards, within } = request;
  const colours = request.colours ?? (await coloursOnly(within ?? collection.read.db));
  const table = await openTable(file, name, options, colours);
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
    cells: { understood: 0, partly: 0, unknown: 0, idle: 0 },
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
    const cells = new CellCounter(mapping, result.cells);
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
          texts.add(
            row.line,
            reader.unread.filter(({ asks }) => asks),
          );
          result.rejected.push({ line: row.line, column: judged.column, reason: judged.reason });
          return;
        }
        texts.add(row.line, reader.unread);
        cells.see(row, reader.unread);
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
    const known = knownNote(options, result.duplicateLines);
    if (known !== null) result.notes.push(known);
    result.addedCastings = options.as === 'sales' && options.addReference ? missing.size : 0;
    return result;
  };

  if (options.dryRun) {
    await take(collection.read.db, await dryTarget(request));
    return finish();
  }
  const takeIn = async (trx: Transaction<Schema>): Promise<ImportResult> => {
    const given = options.words ?? [];
    // What the new words settle of earlier imports is settled first: the same rows are then known again.
    const settled = await sayWords(trx, new WordBook(given).words, at);
    const lot = options.as === 'lot' ? await lotFor(trx, options, at) : null;
    const lotId = lot?.id ?? null;
    const purchases = purchasesOf(request, lot ?? { name, currency: 'USD' });
    await take(trx, {
      lotId,
      lotName: lot?.name ?? null,
      lotCurrency: lot?.currency ?? null,
      nextNumber: options.as === 'lot' ? await numbererBeside(trx, lotId, numbers) : () => '',
      purchases,
      write: true,
      sees: within !== undefined || settled.carIds.length + settled.saleIds.length > 0,
    });
    if (lot) result.lot = { id: lot.id, name: lot.name };
    const bought = lot && (await purchases.settle(trx, { ...lot, isPriced: isPriced(options, lot) }, at));
    if (lot) {
      await tidyLot(trx, lot, result);
      result.lots = await carsByLot(trx, [lot.id, ...(bought?.lotIds ?? [])]);
    }
    if (lot && !lot.isNew && options.lot?.costs.length)
      result.notes.push(
        `The lot "${lot.name}" was there already; its price and costs were left as they are.`,
      );
    const own = bought?.lotIds.length ?? 0;
    if (own > 0)
      result.notes.push(
        `${own === 1 ? 'One lot of its own holds' : `${own} lots of their own hold`} the cars that were bought together, by seller and day; the others were bought one by one.`,
      );
    const grew =
      options.as === 'reference' ? result.accepted > 0 : options.as === 'sales' && missing.size > 0;
    const followed =
      grew && (options.as === 'reference' || options.addReference) ? await followAll(trx, null, at) : null;
    if (followed && followed.carIds.length + followed.saleIds.length > 0)
      result.notes.push(followedNote(followed.carIds.length, followed.saleIds.length));
    if (result.accepted + settled.carIds.length > 0)
      await afterwards?.(trx, {
        lotId: result.lot?.id ?? null,
        toShare: [...settled.toShare, ...(bought?.toShare ?? [])],
        soldCarIds: [...settled.carIds, ...(followed?.carIds ?? []), ...(bought?.soldCarIds ?? [])],
      });
    return finish();
  };
  return within ? takeIn(within) : runBulk(collection, labelOf(options, name), at, takeIn);
};

/** Lines that are named where rows are known already; further ones are counted. */
const mostKnownLines = 20;

/** Says which rows were taken for what is there already, and by what. */
const knownNote = ({ as }: RunOptions, lines: readonly number[]): string | null => {
  if (lines.length === 0) return null;
  const by = {
    lot: 'of cars that the collection has already, by their number and what else they say, or by all that they say where they have no number',
    sales: 'of sales that are recorded already, by all that they say',
    reference: 'of what the reference has already, by all that they say',
  }[as];
  const shown = lines.slice(0, mostKnownLines).map(String);
  const more = lines.length - shown.length;
  const all = more > 0 ? [...shown, `${more} more`] : shown;
  const places =
    all.length === 1 ? `line ${all[0]}` : `lines ${all.slice(0, -1).join(', ')} and ${all.at(-1)}`;
  return `${lines.length === 1 ? 'One row is' : `${lines.length} rows are`} ${by}: ${places}. Nothing of ${lines.length === 1 ? 'it' : 'those'} was changed.`;
};

const followedNote = (cars: number, sales: number): string =>
  `${[
    cars > 0 && (cars === 1 ? 'one car' : `${cars} cars`),
    sales > 0 && (sales === 1 ? 'one sale record' : `${sales} sale records`),
  ]
    .filter(Boolean)
    .join(' and ')} that waited for the reference are identified further now.`;

const labelOf = (options: RunOptions, name: string): string => {
  if (options.as === 'lot') return `Imported the lot "${options.lot?.name ?? name}"`;
  return options.as === 'sales' ? `Imported sale records from ${name}` : `Imported reference from ${name}`;
};
