import type { Transaction } from 'kysely';
import type { Currency } from '../../valuation/types.ts';
import { inventoryNumberer } from '../records/cars/cars-write.ts';
import { readReportingCurrency } from '../records/collection/settings.ts';
import { countCarsOfLot, findLot, findLotNamed, insertLot, removeLot } from '../records/lots/lots.ts';
import type { Schema } from '../schema.ts';
import { Purchases } from './purchases.ts';
import type { ImportRequest, Target } from './reading.ts';
import { ImportFileError, type ImportResult, type RunOptions } from './types.ts';

/** True where the owner has said what the whole lot cost. */
export const isPriced = ({ lot, lotId }: RunOptions, { isNew }: LotOfImport): boolean =>
  lotId === undefined && isNew && !!lot?.costs.length;

/** The purchases of a file that is imported as this lot, or as a new one. */
export const purchasesOf = (
  { options }: Pick<ImportRequest, 'options'>,
  lot: { name: string; currency: Currency },
): Purchases =>
  new Purchases(lot.name, lot.currency, {
    divides: options.lotId === undefined && options.lots !== 'one',
    isNew: options.lotId === undefined,
  });

/** The lot that a file would be imported as; its id is null for a new one. */
export const plannedLot = async ({ collection, options, name }: ImportRequest) => {
  const { db } = collection.read;
  const { lot, lotId, currency } = options;
  const known = lotId === undefined ? lot && (await findLotNamed(db, lot.name)) : await findLot(db, lotId);
  return {
    id: known?.id ?? lotId ?? null,
    name: known?.name ?? lot?.name ?? name,
    currency: known?.currency ?? lot?.currency ?? currency ?? (await readReportingCurrency(db)),
  };
};

/** Rows that are only looked at. */
export const dryTarget = async (request: ImportRequest): Promise<Omit<Target, 'onMissing' | 'currency'>> => {
  const lot = await plannedLot(request);
  return {
    lotId: lot.id,
    lotName: request.options.lot?.name ?? null,
    lotCurrency: lot.currency,
    nextNumber: () => '',
    purchases: purchasesOf(request, lot),
    write: false,
    sees: false,
  };
};

/** Free numbers that the file itself does not bring. */
export const numbererBeside = async (
  trx: Transaction<Schema>,
  lotId: number | null,
  numbers: readonly string[],
): Promise<() => string> => {
  const next = await inventoryNumberer(trx, lotId);
  // Most lists number all of their cars or none.
  let brought: Set<string> | null = null;
  return () => {
    brought ??= new Set(numbers.map(number => number.toLowerCase()));
    for (;;) {
      const free = next();
      if (!brought.has(free.toLowerCase())) return free;
    }
  };
};

export interface LotOfImport {
  id: number;
  name: string;
  currency: Currency;
  isNew: boolean;
}

export const lotFor = async (
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
  const priceFrom = lot.costs.length > 0 ? 'lot' : 'cars';
  const id = await insertLot(trx, { ...lot, priceFrom }, at);
  return { id, name: lot.name, currency: lot.currency, isNew: true };
};

/** A lot of which no car could be read is not made, nor is one whose cars all went to lots of their own. */
export const tidyLot = async (
  trx: Transaction<Schema>,
  lot: LotOfImport,
  result: ImportResult,
): Promise<void> => {
  if (!lot.isNew || (await countCarsOfLot(trx, lot.id)) > 0) return;
  await removeLot(trx, lot.id);
  delete result.lot;
};
