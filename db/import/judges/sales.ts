import type { Database } from 'better-sqlite3';
import type { Kysely } from 'kysely';
import { isCurrency } from '../../../valuation/money.ts';
import { inUnits, signOfPaid } from '../../../valuation/reading/amounts.ts';
import { currencyNamed } from '../../../valuation/reading/currency.ts';
import { readDate } from '../../../valuation/reading/date.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { currencyOfAmount, readMoney } from '../../../valuation/reading/money.ts';
import { type Cell, notUnderstood, type Reading, understood } from '../../../valuation/reading/reading.ts';
import { readFinishState, readParts } from '../../../valuation/reading/words.ts';
import { saysYes } from '../../../valuation/reading/yes-no.ts';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import { finishNotSettled } from '../../records/own-words/settle-sale.ts';
import { knownSales, type SaleEntry, saleInserter, saleToRow } from '../../records/sales/sales.ts';
import { heardToJson, unreadToJson } from '../../records/unread.ts';
import { loadReference } from '../../reference/match.ts';
import { plain } from '../../reference/plain.ts';
import { referenceInserter } from '../../reference/reference-inserter.ts';
import { unknownMaker, unsortedSeries } from '../../reference/unsorted.ts';
import type { Schema } from '../../schema.ts';
import { isOfSeveralRows } from '../merged-cells.ts';
import type { SaidOfAll } from '../types.ts';
import { matchExplainer } from './explain-match.ts';
import { FeatureTexts } from './feature-text.ts';
import { gradeReader } from './grades.ts';
import { identityReader, notACar } from './identity.ts';
import { type Habits, type Judge, type Judged, keptUnread, type RowReader } from './judge.ts';
import { notSold } from './ownership.ts';
import { bareCurrency, whyBareIsOpen } from './purchase.ts';
import { remarksReader } from './remarks.ts';
import { remembered } from './remembered.ts';
import { partsInWords, partsSaid, takeFinish, takeParts } from './state.ts';

interface Target {
  addReference: boolean;
  ofAll: SaidOfAll;
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

const isYes = (text: string): boolean => text === '1' || saysYes(text);

const readPercent = (cell: Cell): Reading<number> => {
  const text = String(cell ?? '').trim();
  const percent = Number(/^(\d{1,3}) ?%?$/.exec(text)?.[1] ?? Number.NaN);
  return percent <= 100 ? understood(percent) : notUnderstood(`"${text}" is not a number from 0 to 100`);
};

/**
 * The currency of a row's price: what its price names, or else its currency column; null where they differ,
 * or nobody can tell.
 */
const currencyAt = (row: RowReader, own: Currency, bare: Currency | null): Currency | null => {
  const named = row.text('currency');
  const currency = named ? currencyNamed(named, own) : own;
  const inPrice = currencyOfAmount(row.cell('price'), currency ?? own);
  if (currency === null || !isCurrency(currency)) {
    const reason = `"${named}" is not a currency; write its ISO 4217 code, such as USD`;
    if (inPrice !== 'none' && inPrice !== null) {
      row.miss('currency', reason);
      return inPrice;
    }
    row.refuse('currency', reason);
    return null;
  }
  if (!named && bare !== own && signOfPaid(row.cell('price')) === '') {
    if (bare === null) row.ask('price', whyBareIsOpen(row.cell('price')));
    return bare;
  }
  // Who has said in which currency bare amounts are has said what such a sign means.
  if (inPrice === null && bare !== null && currencyOfAmount(row.cell('price'), bare) === bare) return bare;
  if (inPrice === 'none' || inPrice === currency) return currency;
  if (inPrice === null || !named) return inPrice ?? currency;
  row.refuse('price', `the price "${row.text('price')}" names ${inPrice}, the row's currency is ${currency}`);
  return null;
};

/** The price of a sale; without one the row says nothing. */
const takePrice = (
  row: RowReader,
  own: Currency,
  bare: Currency | null,
  priceOf: (currency: Currency) => (cell: Cell) => Reading<Minor>,
) => {
  if (!row.has('price')) {
    row.refuse('price', 'the price is missing');
    return null;
  }
  if (isOfSeveralRows(row.text('price'))) {
    row.ask('price', `"${row.text('price')}" is one amount of several rows: say what each of them brought`);
    return null;
  }
  const currency = currencyAt(row, own, bare);
  if (currency === null) return null;
  const price = priceOf(currency)(row.cell('price'));
  if (!price.ok) row.refuse('price', price.reason);
  else if (price.value <= 0)
    row.refuse('price', `"${row.text('price')}" is not a price: enter more than zero`);
  else {
    row.fields.price = inUnits(price.value, currency);
    row.fields.currency = currency;
    return { price: price.value, currency };
  }
  return null;
};

const takeDay = (
  row: RowReader,
  { soldOn }: SaidOfAll,
  dayOf: (cell: Cell) => Reading<IsoDate>,
): IsoDate | null => {
  if (!row.has('sold_on') && soldOn === undefined) {
    row.refuse('sold_on', 'the day of the sale is missing');
    return null;
  }
  const day = dayOf(row.has('sold_on') ? row.cell('sold_on') : (soldOn ?? null));
  if (!day.ok) {
    row.refuse('sold_on', day.reason);
    return null;
  }
  row.fields.sold_on = day.value;
  return day.value;
};

const takeSource = (row: RowReader, { source = '' }: SaidOfAll): string => {
  const own = row.takeText('source').trim();
  if (own !== '' || source === '') return own;
  row.fields.source = source;
  return source;
};

/**
 * What a sale adds to the reference where its casting is not there: one variation for all rows
 * that say the same.
 */
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
 * Judges the rows of a sales file. A row without a day or a price, or of which nothing says which car it was,
 * is refused; what else is not understood is saved beside the record. The same observation twice is a
 * duplicate. A casting that the reference lacks waits to be settled, or is added with what the row says of
 * the variation where that was asked for.
 */
export const salesJudge = async (db: Kysely<Schema>, habits: Habits, target: Target): Promise<Judge> => {
  const { mapping } = habits;
  const reference = await loadReference(db);
  const explain = matchExplainer(reference);
  const { sqlite } = target;
  const insert = sqlite && saleInserter(sqlite);
  const add = sqlite && target.addReference ? additions(await referenceInserter(sqlite, db)) : null;
  const isKnown = knownSales(target.reader);
  const seen = new Set<string>();
  const features = new FeatureTexts(reference, habits.words.words);
  const readRemarks = remarksReader(features, habits.words);
  const identityOf = identityReader(reference, features, readRemarks);
  const gradeOf = gradeReader(habits);
  const order = mapping.columns.find(column => column.ours === 'sold_on')?.dateOrder ?? null;
  const habit = mapping.money.get('price') ?? {};
  const bare = bareCurrency(habits, 'price', target.currency);
  const dayOf = remembered(cell => readDate(cell, order, target.today));
  const finishOf = remembered(readFinishState);
  const partsOf = remembered(readParts);
  const pricesOf = new Map<Currency, (cell: Cell) => Reading<Minor>>();
  const priceOf = (currency: Currency) => {
    const read = pricesOf.get(currency) ?? remembered(cell => readMoney(cell, currency, habit));
    pricesOf.set(currency, read);
    return read;
  };

  return (row): Judged => {
    const unsold = notSold(row);
    if (unsold) return unsold;
    const soldOn = takeDay(row, target.ofAll, dayOf);
    const priced = takePrice(row, target.currency, bare, priceOf);
    if (isYes(row.text('own_sale')))
      return {
        outcome: 'rejected',
        column: 'own_sale',
        reason: 'a sale of your own comes with the list of disposals',
        not: 'your own sale',
      };
    const { written, match, remarks } = identityOf(row);
    const notCar = notACar(reference, { written, match });
    if (notCar) return notCar;
    const name = written.casting ?? written.release_name ?? '';
    if (Object.keys(written).length === 0 && row.unread.length === 0)
      row.refuse('casting', 'the casting is missing');
    const rejected = row.rejected();
    if (rejected || soldOn === null || priced === null)
      return rejected ?? { outcome: 'rejected', column: null, reason: 'no price or no day', not: null };
    const isNew = match.castingId === null;
    if (name && isNew && !row.isDescribed) target.onMissing(name);
    // A name that a title begins with is no casting by itself.
    const adds = isNew && target.addReference && name !== '' && !row.isDescribed;
    const grade = gradeOf(row);
    const finish = takeFinish(row, finishOf);
    const missingParts = takeParts(row, 'missing_parts', partsOf);
    const reproductionParts = takeParts(row, 'reproduction_parts', partsOf);
    const doubt = finish === null ? row.unread.find(({ field }) => field === 'finish_state') : undefined;
    const sale: Omit<SaleEntry, 'id'> = {
      soldOn,
      ...priced,
      castingId: match.castingId,
      variationId: match.variationId,
      asWritten: written,
      grade,
      finishState: finish ?? 'original',
      missingParts,
      reproductionParts,
      source: takeSource(row, target.ofAll),
      reference: row.takeText('reference', 500),
      reliabilityPercent: row.take('reliability_percent', readPercent),
      excluded: doubt !== undefined || isYes(row.text('excluded')),
      excludedWhy: doubt
        ? `${finishNotSettled}"${doubt.text.slice(0, 100)}"`
        : isYes(row.text('excluded'))
          ? row.takeText('excluded_why', 500)
          : '',
      disposalId: null,
      notes: [row.takeText('notes', 20_000), ...remarks, ...partsInWords(partsSaid(row))]
        .filter(Boolean)
        .join('\n'),
    };
    const own = saleToRow(sale);
    if (seen.has(own.identity) || isKnown(sale, own.identity))
      return { outcome: 'duplicate', note: 'the same sale is recorded already; nothing was changed' };
    seen.add(own.identity);
    const why = adds ? `"${name}" is added to the reference` : explain(written, match);
    const texts = { unread: unreadToJson(row.unread.map(keptUnread)), heard: heardToJson(row.heard) };
    return {
      outcome: 'accepted',
      notes: why === null ? row.notes : [...row.notes, why],
      unidentified: !adds && match.variationId === null,
      write: () => insert?.(adds && add ? saleToRow({ ...sale, ...add(written) }) : own, adds, texts),
    };
  };
};
