import type { Transaction } from 'kysely';
import type { Collection } from '../../db/collection.ts';
import { runBulk } from '../../db/history/history.ts';
import { writeSetting } from '../../db/records/collection/settings.ts';
import { saveValuations, type ValuationSnapshot } from '../../db/records/worth/valuations.ts';
import type { Schema } from '../../db/schema.ts';
import type { DemoContent, DemoTable, Row } from './content.ts';
import { demoDate } from './dates.ts';
import { drawPhotos } from './draw-photos.ts';
import { inOrderOfReference } from './table-order.ts';
import { fillBench } from './work/bench.ts';
import { savePlans } from './work/plans.ts';

interface WriteDemoOptions {
  /** Instant of the action in history; nothing else in the demo depends on the clock. */
  at: string;
  /** Past worths as the engine gave them for the content's snapshots; left out, the demo has no past. */
  valuations?: (ValuationSnapshot & { evidence: object })[];
  /** Photographs drawn so far, of all. */
  onProgress?: (done: number, total: number) => void;
  signal?: AbortSignal;
}

/**
 * Fills an empty collection with the demo: the same rows and the same photographs every time, in one action
 * of history. Throws Error where the collection is not empty; an aborted signal throws its reason and
 * leaves no rows behind.
 */
export const writeDemo = async (
  collection: Collection,
  content: DemoContent,
  options: WriteDemoOptions,
): Promise<void> => {
  const tables = inOrderOfReference(collection.write.sqlite, Object.keys(content.tables) as DemoTable[]);
  for (const table of [...tables, 'photo'] as const) {
    const row = await collection.read.db.selectFrom(table).select('id').limit(1).executeTakeFirst();
    if (row)
      throw new Error(`The demo needs an empty collection, and ${collection.dir} has rows of ${table}.`);
  }
  const photos = await drawPhotos(collection.dir, content.photos, options);
  options.signal?.throwIfAborted();
  await runBulk(collection, 'Made the demo collection', options.at, async trx => {
    for (const table of tables) await insertRows(trx, table, content);
    for (const piece of pieces(photos, 500)) await trx.insertInto('photo').values(piece).execute();
    await savePlans(trx, content.plans);
    await fillBench(trx);
    await saveByDay(trx, options.valuations ?? []);
    await writeSetting(trx, 'demo', 'yes');
    await writeSetting(trx, 'today', demoDate);
    await writeSetting(trx, 'name', 'A collector’s drawer');
    await writeSetting(trx, 'owner', 'E. Tarrow');
  });
};

const pieces = <T>(rows: readonly T[], size: number): T[][] =>
  Array.from({ length: Math.ceil(rows.length / size) }, (_, i) => rows.slice(i * size, (i + 1) * size));

/**
 * Rows in the order of their ids: in an empty table SQLite gives them those very ids, which history
 * wants to choose.
 */
const insertRows = async (
  trx: Transaction<Schema>,
  table: DemoTable,
  content: DemoContent,
): Promise<void> => {
  const rows: Row<DemoTable>[] = content.tables[table];
  rows.forEach((row, i) => {
    if (row.id !== i + 1) throw new Error(`row ${i + 1} of ${table} has id ${row.id}`);
  });
  for (const piece of pieces(rows, 200))
    await trx
      .insertInto(table)
      .values(piece.map(({ id: _id, ...row }) => row as Row<DemoTable>))
      .execute();
};

const saveByDay = async (
  trx: Transaction<Schema>,
  valuations: NonNullable<WriteDemoOptions['valuations']>,
): Promise<void> => {
  const days = Map.groupBy(valuations, valuation => valuation.on);
  for (const [on, ofDay] of [...days].toSorted(([a], [b]) => (a < b ? -1 : 1)))
    await saveValuations(trx, ofDay, `${on}T18:00:00.000Z`, null);
};
