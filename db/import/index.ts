import type { Transaction } from 'kysely';
import { runBulk } from '../history/history.ts';
import { carsByLot } from '../records/lots/lots.ts';
import { followAll } from '../records/names/follow-reference.ts';
import { sayWords } from '../records/own-words/say-words.ts';
import type { Schema } from '../schema.ts';
import { WordBook } from './judges/word-book.ts';
import {
  dryTarget,
  isPriced,
  type LotOfImport,
  lotFor,
  numbererBeside,
  purchasesOf,
  tidyLot,
} from './lot-of-import.ts';
import type { Purchases } from './purchases.ts';
import type { ImportRequest } from './reading.ts';
import { followedNote, lotStaysNote, ownLotsNote, seenLotsNote, unknownLotsNote } from './run-notes.ts';
import { finishedResult, type ImportRun, openRun, takeRows } from './take-rows.ts';
import type { ImportResult, RunOptions } from './types.ts';

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

type RunRequest = ImportRequest & {
  afterwards?: (trx: Transaction<Schema>, made: MadeByImport) => Promise<void>;
  /** The action that this import is a part of; without one it is an action of its own. */
  within?: Transaction<Schema>;
};

/**
 * Takes a file in as one action. Rows that say nothing of what every record must have are rejected with line,
 * column and reason; of the others everything that is understood is taken, and the rest is saved as it is
 * written; a cancel or a failure takes nothing. `dryRun` judges only. `afterwards` runs inside the action
 * with what it made.
 */
export const runImport = async (request: RunRequest): Promise<ImportResult> => {
  const { collection, name, options, at, within } = request;
  const { db } = collection.read;
  const run = await openRun(request, within ?? db);
  if (options.dryRun) {
    await takeRows(run, db, await dryTarget(request));
    return finishedResult(run);
  }
  const takeIn = (trx: Transaction<Schema>) => takeFile(trx, run, request);
  return within ? takeIn(within) : runBulk(collection, labelOf(options, name), at, takeIn);
};

/** Takes the rows in, and whatever follows from them, inside the import's action. */
const takeFile = async (
  trx: Transaction<Schema>,
  run: ImportRun,
  request: RunRequest,
): Promise<ImportResult> => {
  const { name, options, at, within, afterwards } = request;
  const { result } = run;
  // What the new words settle of earlier imports is settled first: the same rows are then known again.
  const settled = await sayWords(trx, new WordBook(options.words ?? []).words, at);
  const lot = options.as === 'lot' ? await lotFor(trx, options, at) : null;
  const lotId = lot?.id ?? null;
  const purchases = purchasesOf(request, lot ?? { name, currency: 'USD' });
  await takeRows(run, trx, {
    lotId,
    lotName: lot?.name ?? null,
    lotCurrency: lot?.currency ?? null,
    nextNumber: options.as === 'lot' ? await numbererBeside(trx, lotId, run.formats.numbers) : () => '',
    purchases,
    write: true,
    sees: within !== undefined || settled.carIds.length + settled.saleIds.length > 0,
  });
  const bought = lot && (await settleLots(trx, run, lot, purchases));
  const followed = await followGrowth(trx, run);
  if (result.accepted + settled.carIds.length > 0)
    await afterwards?.(trx, {
      lotId: result.lot?.id ?? null,
      toShare: [...settled.toShare, ...(bought?.toShare ?? [])],
      soldCarIds: [...settled.carIds, ...(followed?.carIds ?? []), ...(bought?.soldCarIds ?? [])],
    });
  return finishedResult(run);
};

/** Divides the cars among the lots in which they were bought, with what they cost, and says which lots those are. */
const settleLots = async (
  trx: Transaction<Schema>,
  { request: { options, at }, result }: ImportRun,
  lot: LotOfImport,
  purchases: Purchases,
) => {
  result.lot = { id: lot.id, name: lot.name };
  const bought = await purchases.settle(trx, { ...lot, isPriced: isPriced(options, lot) }, at);
  await tidyLot(trx, lot, result);
  result.lots = await carsByLot(trx, [lot.id, ...bought.joinedIds, ...bought.seenIds, ...bought.lotIds]);
  if (!lot.isNew && options.lot?.costs.length) result.notes.push(lotStaysNote(lot.name));
  if (purchases.unknownLots.size > 0) result.notes.push(unknownLotsNote([...purchases.unknownLots]));
  if (bought.seenIds.length > 0) result.notes.push(seenLotsNote(bought.seenIds.length));
  if (bought.lotIds.length > 0) result.notes.push(ownLotsNote(bought.lotIds.length));
  return bought;
};

/** Identifies further what waited for the reference, where the import has made that grow; null where it has not. */
const followGrowth = async (
  trx: Transaction<Schema>,
  { request: { options, at }, result, missing }: ImportRun,
) => {
  const grew =
    options.as === 'reference'
      ? result.accepted > 0
      : options.as === 'sales' && options.addReference && missing.size > 0;
  if (!grew) return null;
  const followed = await followAll(trx, null, at);
  if (followed.carIds.length + followed.saleIds.length > 0)
    result.notes.push(followedNote(followed.carIds.length, followed.saleIds.length));
  return followed;
};

const labelOf = (options: RunOptions, name: string): string => {
  if (options.as === 'lot') return `Imported the lot "${options.lot?.name ?? name}"`;
  return options.as === 'sales' ? `Imported sale records from ${name}` : `Imported reference from ${name}`;
};
