import type { Transaction } from 'kysely';
import { readBasePaint, readYear } from '../../../valuation/reading/words.ts';
import { pieces } from '../../codec.ts';
import { plain } from '../../reference/plain.ts';
import { type FeatureTexts, listReleases, listVariations } from '../../reference/reference.ts';
import { saveVariation } from '../../reference/reference-write.ts';
import { rememberVariation } from '../../reference/settled-names.ts';
import type { Schema } from '../../schema.ts';
import { listCars } from '../cars/cars.ts';
import { replaceCandidates, updateCars } from '../cars/cars-write.ts';
import { saveWords } from '../own-words/words.ts';
import { listSales, updateSale } from '../sales/sales.ts';
import { heardToJson, readHeard } from '../unread.ts';
import { type Followed, followReference } from './follow-reference.ts';
import type { SeenVariation } from './seen-variations.ts';

const openOf = async (trx: Transaction<Schema>, castingIds: readonly number[]) => {
  const open = async (table: 'car' | 'sale_record') => {
    const ids: number[] = [];
    for (const piece of pieces(castingIds)) {
      const rows = await trx
        .selectFrom(table)
        .select('id')
        .where('casting_id', 'in', piece)
        .where('variation_id', 'is', null)
        .execute();
      ids.push(...rows.map(row => row.id));
    }
    return ids;
  };
  return { carIds: await open('car'), saleIds: await open('sale_record') };
};

/** The cars and sale records that were seen so are of this variation. */
const identify = async (
  trx: Transaction<Schema>,
  seen: SeenVariation,
  variationId: number,
  at: string,
): Promise<void> => {
  const variation = (await listVariations(trx)).find(one => one.id === variationId);
  if (!variation) return;
  const { releaseId, castingId } = variation;
  const changes = { castingId, releaseId, variationId };
  await updateCars(
    trx,
    seen.carIds.map(id => ({ id, changes })),
    at,
  );
  for (const id of seen.carIds) await replaceCandidates(trx, id, []);
  for (const sale of await listSales(trx, { ids: seen.saleIds }))
    await updateSale(trx, { ...sale, castingId, variationId });
};

/** The release that was seen: of the year and name that were written, or else the only one that there is. */
const releaseSeen = async (trx: Transaction<Schema>, seen: SeenVariation, castingName: string) => {
  const releases = (await listReleases(trx)).filter(one => one.castingId === seen.castingId);
  const year = readYear(seen.releaseYear);
  const fitting = releases.filter(
    one =>
      (seen.releaseName === '' || plain(one.name) === plain(seen.releaseName)) &&
      (!year.ok || one.year === year.value),
  );
  const [only, another] = fitting;
  if (only && !another) return { releaseName: only.name, releaseYear: only.year };
  return { releaseName: seen.releaseName || castingName, releaseYear: year.ok ? year.value : null };
};

/** Adds a variation as it was seen; a base paint that is not understood stays open. */
const addSeen = async (trx: Transaction<Schema>, seen: SeenVariation): Promise<number> => {
  const { name } = await trx
    .selectFrom('casting')
    .select('name')
    .where('id', '=', seen.castingId)
    .executeTakeFirstOrThrow();
  const basePaint = readBasePaint(seen.features.basePaint ?? '');
  const features: Partial<FeatureTexts> = {
    ...seen.features,
    basePaint: basePaint.ok ? basePaint.value : '',
  };
  const home = await releaseSeen(trx, seen, name);
  const same = (await listVariations(trx)).find(
    one =>
      one.castingId === seen.castingId &&
      one.releaseName === home.releaseName &&
      one.releaseYear === home.releaseYear &&
      Object.entries(one.features).every(
        ([feature, text]) => plain(text) === plain(features[feature as keyof FeatureTexts] ?? ''),
      ),
  );
  return (
    same?.id ??
    saveVariation(trx, {
      castingId: seen.castingId,
      ...home,
      features,
      rarity: null,
      factorySpecification: '',
    })
  );
};

/**
 * What was seen becomes variations of the reference, and its cars and sale records, also those that
 * say less, follow.
 */
export const addSeenVariations = async (
  trx: Transaction<Schema>,
  seen: readonly SeenVariation[],
  at: string,
): Promise<Followed> => {
  for (const one of seen) await identify(trx, one, await addSeen(trx, one), at);
  const followed = await followReference(
    trx,
    await openOf(trx, [...new Set(seen.map(one => one.castingId))]),
    at,
  );
  return {
    carIds: [...seen.flatMap(one => one.carIds), ...followed.carIds],
    saleIds: [...seen.flatMap(one => one.saleIds), ...followed.saleIds],
  };
};

/** What was seen is a variation that the reference has; it is known as such from now on. */
export const sameAsVariation = async (
  trx: Transaction<Schema>,
  seen: readonly SeenVariation[],
  variationId: number,
  at: string,
): Promise<Followed> => {
  for (const one of seen) {
    await identify(trx, one, variationId, at);
    const { castingId, key } = one;
    await rememberVariation(trx, { castingId, variationId, seen: key.slice(key.indexOf(' ') + 1) }, at);
  }
  return { carIds: seen.flatMap(one => one.carIds), saleIds: seen.flatMap(one => one.saleIds) };
};

/** Notes by which word these rows have their colour. */
const hear = async (
  trx: Transaction<Schema>,
  table: 'car' | 'sale_record',
  rows: readonly { id: number }[],
  { text, colour }: { text: string; colour: string },
): Promise<void> => {
  const said = { column: 'colour', text, field: 'colour', gave: { colour } };
  for (const { id } of rows) {
    const { heard } = await trx
      .selectFrom(table)
      .select('heard')
      .where('id', '=', id)
      .executeTakeFirstOrThrow();
    const kept = heardToJson([...readHeard(heard), said]);
    await trx.updateTable(table).set({ heard: kept }).where('id', '=', id).execute();
  }
};

/**
 * A text is a word for a colour: remembered as such, and put in its place wherever a variation is still open.
 */
export const wordForColour = async (
  trx: Transaction<Schema>,
  { text, colour }: { text: string; colour: string },
  at: string,
): Promise<Followed> => {
  await saveWords(trx, [{ column: '*', text, field: 'colour', meaning: colour }], at);
  const isSaid = (written: Record<string, string>) => plain(written.colour ?? '') === plain(text);
  const cars = (await listCars(trx)).filter(car => car.variationId === null && isSaid(car.asWritten));
  await updateCars(
    trx,
    cars.map(car => ({ id: car.id, changes: { asWritten: { ...car.asWritten, colour } } })),
    at,
  );
  const sales = (await listSales(trx)).filter(
    sale => sale.variationId === null && sale.disposalId === null && isSaid(sale.asWritten),
  );
  for (const sale of sales) await updateSale(trx, { ...sale, asWritten: { ...sale.asWritten, colour } });
  await hear(trx, 'car', cars, { text, colour });
  await hear(trx, 'sale_record', sales, { text, colour });
  const carIds = cars.map(car => car.id);
  const saleIds = sales.map(sale => sale.id);
  await followReference(trx, { carIds, saleIds }, at);
  return { carIds, saleIds };
};
