import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Collection } from '../../../db/collection.ts';
import type { ImportResult, ImportRowView } from '../../../db/import/index.ts';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { newLot, take } from './importing.ts';

const pathOf = (name: string) => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));

export const strangersFile = (name: string): File =>
  new File([new Uint8Array(readFileSync(pathOf(name)))], name.replace(/.*\//, ''));

/** The rows of a list as an import of a lot reads them, without taking any. */
export const rowsOf = async (
  collection: Collection,
  name: string,
  words: OwnWord[] = [],
): Promise<ImportResult & { rows: ImportRowView[] }> => {
  const result = await take(collection, strangersFile(name), {
    as: 'lot',
    lot: newLot('Theirs'),
    dryRun: true,
    rows: true,
    words,
  });
  return { ...result, rows: result.rows ?? [] };
};

/** How many filled cells of the cars of a list there are, and how many of them were understood. */
export const cellsOf = (rows: ImportRowView[]) => {
  const cars = rows.filter(row => row.outcome !== 'rejected');
  const filled = cars.flatMap(row => Object.values(row.values).filter(Boolean)).length;
  const left = cars.flatMap(row => [...new Set(row.unread.map(({ column }) => column))]).length;
  return { cars: cars.length, filled, understood: filled - left };
};
