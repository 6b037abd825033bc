import type { Transaction } from 'kysely';
import type { Lexicon } from '../../../valuation/reading/sale-line/lexicon.ts';
import { type LoadedReference, loadReference, type Match } from '../../reference/match.ts';
import { loadSaleLexicon } from '../../reference/sale-lexicon.ts';
import type { Schema } from '../../schema.ts';
import { carCandidates, listCars } from '../cars/cars.ts';
import { replaceCandidates, updateCars } from '../cars/cars-write.ts';
import { listSales, type SaleEntry, updateSale } from '../sales/sales.ts';
import { castingUnread, withoutNames } from './names-unread.ts';
import { nameWritten } from './waiting-names.ts';

/** Which rows are looked at again; those of which the variation is known never are. */
export interface Followers {
  carIds: readonly number[];
  saleIds: readonly number[];
}

/** What of them is known better now. */
export interface Followed {
  carIds: number[];
  saleIds: number[];
}

const matched = (
  reference: LoadedReference,
  castingId: number | null,
  written: Record<string, string>,
): Match => (castingId === null ? reference.match(written) : reference.matchWithin(castingId, written));

/**
 * The record with the casting that what of it was not understood names plainly, where it has neither a casting
 * nor a name.
 */
const namedUnread = (sale: SaleEntry, lexicon: Lexicon): SaleEntry => {
  const { unread = [], asWritten } = sale;
  const read = castingUnread(unread, lexicon);
  return read === null
    ? sale
    : {
        ...sale,
        castingId: read.castingId,
        asWritten: { ...asWritten, casting: read.name },
        unread: withoutNames(unread, [read.name]),
      };
};

const isNameless = ({ castingId, asWritten, unread = [] }: SaleEntry): boolean =>
  castingId === null && nameWritten(asWritten) === '' && unread.length > 0;

/**
 * Matches what was written of cars and sale records with the reference as it is now, and keeps what is known
 * better: a casting where there was none, a variation, or fewer candidates. A sale record without a name is
 * matched by what of it was not understood. What was known is never taken back. `at` is the instant of the
 * change.
 */
export const followReference = async (
  trx: Transaction<Schema>,
  { carIds, saleIds }: Followers,
  at: string,
): Promise<Followed> => {
  // A reference may be large; most that grow have nothing that waits for them.
  if (carIds.length + saleIds.length === 0) return { carIds: [], saleIds: [] };
  const reference = await loadReference(trx);
  const cars = (await listCars(trx, { ids: [...carIds] })).filter(car => car.variationId === null);
  const before = await carCandidates(
    trx,
    cars.map(car => car.id),
  );
  const updates: Parameters<typeof updateCars>[1] = [];
  const followed: Followed = { carIds: [], saleIds: [] };
  for (const car of cars) {
    const match = matched(reference, car.castingId, car.asWritten);
    if (match.castingId === null) continue;
    const known = before.get(car.id) ?? [];
    const isNarrower =
      match.candidates.length > 0 && (known.length === 0 || match.candidates.length < known.length);
    if (
      car.castingId !== null &&
      match.variationId === null &&
      !isNarrower &&
      match.releaseId === car.releaseId
    )
      continue;
    if (known.length > 0 || match.candidates.length > 0)
      await replaceCandidates(
        trx,
        car.id,
        match.variationId === null && !isNarrower ? known : match.candidates,
      );
    followed.carIds.push(car.id);
    const { castingId, variationId } = match;
    updates.push({
      id: car.id,
      changes: { castingId, releaseId: match.releaseId ?? car.releaseId, variationId },
    });
  }
  await updateCars(trx, updates, at);
  const sales = (await listSales(trx, { ids: [...saleIds] })).filter(
    sale => sale.variationId === null && sale.disposalId === null,
  );
  const lexicon = sales.some(isNameless) ? await loadSaleLexicon(trx) : null;
  for (const sale of sales) {
    const named = lexicon && isNameless(sale) ? namedUnread(sale, lexicon) : sale;
    const match = matched(reference, named.castingId, named.asWritten);
    const castingId = match.castingId ?? named.castingId;
    if (castingId === null || (castingId === sale.castingId && match.variationId === null)) continue;
    await updateSale(trx, { ...named, castingId, variationId: match.variationId });
    followed.saleIds.push(sale.id);
  }
  return followed;
};

/** The rows that the reference may tell more of: those without a variation, of these castings or of none. */
const openRows = async (
  trx: Transaction<Schema>,
  castingIds: readonly number[] | null,
): Promise<Followers> => {
  const idsOf = async (table: 'car' | 'sale_record') => {
    let query = trx
      .selectFrom(table)
      .select('id')
      .where('variation_id', 'is', null)
      .where(eb => eb.or([eb('as_written', '!=', '{}'), eb('unread', '!=', '[]')]));
    if (castingIds)
      query = query.where(eb =>
        eb.or([
          eb('casting_id', 'is', null),
          ...(castingIds.length > 0 ? [eb('casting_id', 'in', castingIds)] : []),
        ]),
      );
    return (await query.orderBy('id').execute()).map(({ id }) => id);
  };
  return { carIds: await idsOf('car'), saleIds: await idsOf('sale_record') };
};

/**
 * Lets all rows that wait follow the reference after it has grown: those without a casting, and those of the
 * castings that are given, or of any. `at` is the instant of the change.
 */
export const followAll = async (
  trx: Transaction<Schema>,
  castingIds: readonly number[] | null,
  at: string,
): Promise<Followed> => followReference(trx, await openRows(trx, castingIds), at);
