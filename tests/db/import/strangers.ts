import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Collection } from '../../../db/collection.ts';
import { runAction } from '../../../db/history/history.ts';
import type { ImportResult, ImportRowView } from '../../../db/import/index.ts';
import { saveCasting, saveVariation } from '../../../db/reference/reference-write.ts';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { at, newCollection } from '../../helpers/collections.ts';
import { newLot, take } from './importing.ts';

const pathOf = (name: string) => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));

export const strangersFile = (name: string): File =>
  new File([new Uint8Array(readFileSync(pathOf(name)))], name.replace(/.*\//, ''));

const blank = { bodyType: 'saloon', firstYear: null, lengthMm: null, materials: '', markings: '', notes: '' };

/** A collection with a reference in which each casting has one variation, of one colour. */
export const knowing = async (colours: Record<string, string>) => {
  const collection = await newCollection();
  await runAction(collection, 'Filled the reference', at, async trx => {
    for (const [name, colour] of Object.entries(colours)) {
      const castingId = await saveCasting(trx, {
        maker: 'Quillon Toys',
        series: 'Slipwinds',
        name,
        ...blank,
      });
      const variation = {
        castingId,
        releaseName: name,
        releaseYear: 1969,
        rarity: null,
        factorySpecification: '',
      };
      await saveVariation(trx, { ...variation, features: { colour } });
    }
  });
  return collection;
};

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
