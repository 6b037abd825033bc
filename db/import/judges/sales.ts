import type { Database } from 'better-sqlite3';
import type { Kysely } from 'kysely';
import { isCurrency } from '../../../valuation/money.ts';
import { currencyNamed } from '../../../valuation/reading/currency.ts';
import { readDate } from '../../../valuation/reading/date.ts';
import { currencyOfAmount, readMoney } from '../../../valuation/reading/money.ts';
import type { Cell, Reading } from '../../../valuation/reading/reading.ts';
import { readFinishState, readGrade, readParts } from '../../../valuation/reading/words.ts';
import type { Currency, Minor } from '../../../valuation/types.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import { knownSales, type SaleEntry, saleInserter, saleToRow } from '../../records/sales.ts';
import { featureColumns, loadReference, type Match } from '../../reference/match.ts';
import { plain } from '../../reference/plain.ts';
import { referenceInserter } from '../../reference/reference-inserter.ts';
import { unknownMaker, unsortedSeries } from '../../reference/unsorted.ts';
import type { Schema } from '../../schema.ts';
import type { Mapping } from '../mapping.ts';
import { matchExplainer } from './explain-match.ts';
import { writtenOf } from './identity.ts';
import { type Judge, type Judged, mostMatches, type RowReader } from './judge.ts';
import { remembered } from './remembered.ts';

interface Target {
  addReference: boolean;
  /** Of amounts that name none. */
  currency: Currency;
  /** ISO date; a sale cannot lie after it. */
  today: string;
  /** A connection that sees what is recorded, for statements prepared once. */
  reader: Database;
  /** The writing connection inside the import's action; null where rows are only looked at. */
  sqlite: Database | null;
  /** Called with the name of each casting that the reference lacks. */
  onMissing: (casting: string) => void;
}

/** The currency of a row's price: what its price or its currency column names, which must agree; null where that is refused. */
const currencyAt = (row: RowReader, own: Currency): Currency | null => {
  const named = row.text('currency');
  const currency = named ? currencyNamed(named, own) : own;
  if (currency === null || !isCurrency(currency)) {
    row.refuse('currency', `"${named}" is no currency; write its ISO 4217 code, such as USD`);
    return null;
  }
  const inPrice = currencyOfAmount(row.cell('price'), currency);
  if (inPrice === 'none' || inPrice === currency) return currency;
  if (inPrice === null || !named) return inPrice ?? currency;
  row.refuse('price', `the price "${row.text('price')}" names ${inPrice}, the row's currency is ${currency}`);
  return null;
};

/** What a sale adds to the reference where its casting is not there: one variation for all rows that say the same. */
const additions = (reference: Awaited<ReturnType<typeof referenceInserter>>) => {
  const added = new Map<string, { castingId: number; variationId: number }>();
  return (written: Record<string, string>) => {
    const name = written.casting ?? written.release_name ?? '';
    const release = written.release_name ?? name;
    const year = written.release_year ? Number(written.release_year) : null;
    const features = Object.fromEntries(
      variationFeatures.map(feature => [feature, written[featureColumns[feature]] ?? '']),
    );
    const key = plain(JSON.stringify([name, release, year, features]));
    const known = added.get(key);
    if (known) return known;
    const castingId = reference.casting(
      written.maker ?? unknownMaker,
      written.series ?? unsortedSeries,
      name,
      null,
    );
    const variationId = reference.variation(castingId, { release, year, features, rarity: null });
    const ids = { castingId, variationId };
    added.set(key, ids);
    return ids;
  };
};

/**
 * Judges the rows of a sales file. The same observation twice is a duplicate. A casting that the reference lacks rejects the
 * row, or is added with what the row says of the variation where that was asked for.
 */
export const salesJudge = async (db: Kysely<Schema>, mapping: Mapping, target: Target): Promise<Judge> => {
  const reference = await loadReference(db);
  const explain = matchExplainer(reference);
  const { sqlite } = target;
  const insert = sqlite && saleInserter(sqlite);
  const add = sqlite && target.addReference ? additions(await referenceInserter(sqlite, db)) : null;
  const isKnown = knownSales(target.reader);
  const seen = new Set<string>();
  const matched = new Map<string, Match>();
  const order = mapping.columns.find(column => column.ours === 'sold_on')?.dateOrder ?? null;
  const habit = mapping.money.get('price') ?? {};
  const dayOf = remembered(cell => readDate(cell, order, target.today));
  const gradeOf = remembered(readGrade);
  const finishOf = remembered(readFinishState);
  const partsOf = remembered(readParts);
  const pricesOf = new Map<Currency, (cell: Cell) => Reading<Minor>>();
  const priceOf = (currency: Currency) => {
    const read = pricesOf.get(currency) ?? remembered(cell => readMoney(cell, currency, habit));
    pricesOf.set(currency, read);
    return read;
  };

  return (row): Judged => {
    const soldOn = row.take('sold_on', dayOf);
    if (soldOn === null && row.text('sold_on') === '')
      row.refuse('sold_on', 'the day of the sale is missing');
    if (row.text('price') === '') row.refuse('price', 'the price is missing');
    const currency = currencyAt(row, target.currency);
    const price = currency === null ? null : row.take('price', priceOf(currency));
    if (price !== null && price <= 0)
      row.refuse('price', `"${row.text('price')}" is no price: a sale brings more than nothing`);
    const written = writtenOf(row);
    const name = written.casting ?? written.release_name ?? '';
    if (!name) row.refuse('casting', 'the casting is missing');
    const writtenText = JSON.stringify(written);
    const match = matched.get(writtenText) ?? reference.match(written);
    if (matched.size < mostMatches) matched.set(writtenText, match);
    if (name && match.castingId === null) {
      target.onMissing(name);
      if (!target.addReference)
        row.refuse(
          'casting',
          `"${name}" is not in the reference; add it there first, or let the import add it`,
        );
    }
    const grade = row.take('grade', gradeOf);
    const finishState = row.take('finish_state', finishOf) ?? 'original';
    const missingParts = row.take('missing_parts', partsOf) ?? [];
    const reproductionParts = row.take('reproduction_parts', partsOf) ?? [];
    const source = row.takeText('source');
    const found = row.takeText('reference', 500);
    const rejected = row.rejected();
    if (rejected || soldOn === null || price === null || currency === null)
      return rejected ?? { outcome: 'rejected', column: null, reason: 'no price or no day', not: null };
    const sale: Omit<SaleEntry, 'id'> = {
      soldOn,
      price,
      currency,
      castingId: match.castingId,
      variationId: match.variationId,
      asWritten: written,
      grade,
      finishState,
      missingParts,
      reproductionParts,
      source,
      reference: found,
      reliabilityPercent: null,
      excluded: false,
      excludedWhy: '',
      disposalId: null,
      notes: '',
    };
    const own = saleToRow(sale);
    if (seen.has(own.identity) || isKnown(sale, own.identity))
      return { outcome: 'duplicate', note: 'the same sale is recorded already; nothing was changed' };
    seen.add(own.identity);
    const isNew = match.castingId === null;
    const why = isNew ? `"${name}" is added to the reference` : explain(written, match);
    return {
      outcome: 'accepted',
      notes: why === null ? row.notes : [...row.notes, why],
      unidentified: !isNew && match.variationId === null,
      write: () => insert?.(isNew && add ? saleToRow({ ...sale, ...add(written) }) : own, isNew),
    };
  };
};
