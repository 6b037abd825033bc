import type { Kysely, Transaction } from 'kysely';
import { isCurrency } from '../../../valuation/money.ts';
import type { Minor } from '../../../valuation/types.ts';
import type { Collection } from '../../collection.ts';
import { type SaleEntry, saleToRow } from '../../records/sales.ts';
import { loadMatcher, type Match, plain } from '../../reference/match.ts';
import type { Schema } from '../../schema.ts';
import { type Parsed, parseDate } from '../cells/parse-date.ts';
import { currencyOf, parseMoney } from '../cells/parse-money.ts';
import { parseFinishState, parseGrade, parseParts } from '../cells/parse-words.ts';
import type { Mapping } from '../mapping.ts';
import type { Cell } from '../types.ts';
import { matchExplainer } from './explain-match.ts';
import { BadCell, type Judge, mostMatches, take, takeText, type Values } from './judge.ts';
import { writtenOf } from './lot.ts';
import { referenceWriter, unknownMaker, unsortedSeries } from './reference.ts';
import { remembered } from './remembered.ts';

interface Target {
  addReference: boolean;
  /** Of amounts that name none. */
  currency: string;
  /** ISO date; a sale cannot lie after it. */
  today: string;
  /** Called with the name of each casting that the reference lacks. */
  onMissing: (casting: string) => void;
}

const currencyAt = (values: Values, fallback: string): string => {
  const named = values.text('currency');
  const inPrice = currencyOf(values.text('price'), fallback);
  if (inPrice && !isCurrency(inPrice))
    throw new BadCell('price', `"${values.text('price')}" names the currency ${inPrice}, which there is not`);
  if (!named) return inPrice ?? fallback;
  const currency = currencyOf(named, fallback) ?? named.toUpperCase();
  if (!isCurrency(currency))
    throw new BadCell('currency', `"${named}" is no currency; write its ISO 4217 code, such as USD`);
  if (inPrice && inPrice !== currency)
    throw new BadCell(
      'price',
      `the price "${values.text('price')}" names ${inPrice}, the row's currency is ${currency}`,
    );
  return currency;
};

/**
 * Judges the rows of a sales file. The same observation twice is a duplicate. A casting that the reference lacks rejects the
 * row, or is added with what the row says of the variation where that was asked for.
 */
export const salesJudge = async (
  collection: Collection,
  db: Kysely<Schema> | Transaction<Schema>,
  mapping: Mapping,
  target: Target,
): Promise<Judge> => {
  const matcher = await loadMatcher(db);
  const explain = matchExplainer(collection.sqlite);
  const reference = target.addReference ? await referenceWriter(collection, db) : null;
  const columns = new Map(mapping.columns.map(column => [column.ours, column]));
  const decimal = columns.get('price')?.decimal ?? null;
  const order = columns.get('sold_on')?.dateOrder ?? null;
  const seen = new Set(
    (await db.selectFrom('sale_record').select('identity').execute()).map(row => row.identity),
  );
  const { sqlite } = collection;
  const insert = sqlite.prepare(
    `INSERT INTO sale_record (sold_on, price_minor, currency, casting_id, variation_id, as_written, grade_half, finish_state,
      missing_parts, reproduction_parts, source, reference, reliability_percent, excluded, excluded_why, disposal_id, identity, notes)
     VALUES (@sold_on, @price_minor, @currency, @casting_id, @variation_id, @as_written, @grade_half, @finish_state,
      @missing_parts, @reproduction_parts, @source, @reference, @reliability_percent, @excluded, @excluded_why, @disposal_id, @identity, @notes)`,
  );
  const matched = new Map<string, Match>();
  const added = new Map<string, { castingId: number; variationId: number }>();

  /** Adds what the row names to the reference, once for all rows that name the same. */
  const addToReference = (written: Record<string, string>) => {
    const identity = plain(JSON.stringify(written));
    const known = added.get(identity);
    if (known || !reference) return known;
    const name = written.casting ?? '';
    const castingId = reference.casting(unknownMaker, unsortedSeries, name, null);
    const variationId = reference.variation(
      castingId,
      written.release_name ?? name,
      null,
      { colour: written.colour ?? '', basePaint: written.base_paint ?? '', rearEnd: written.rear_end ?? '' },
      null,
    );
    const ids = { castingId, variationId };
    added.set(identity, ids);
    return ids;
  };

  const readDay = remembered(cell => parseDate(cell, order, target.today));
  const readGrade = remembered(parseGrade);
  const readFinish = remembered(parseFinishState);
  const readParts = remembered(parseParts);
  const readPrices = new Map<string, (cell: Cell) => Parsed<Minor>>();
  const readPrice = (currency: string) => {
    const read = readPrices.get(currency) ?? remembered(cell => parseMoney(cell, currency, decimal));
    readPrices.set(currency, read);
    return read;
  };

  return values => {
    const soldOn = take(values, 'sold_on', readDay);
    if (soldOn === null) throw new BadCell('sold_on', 'the day of the sale is missing');
    if (values.text('price') === '') throw new BadCell('price', 'the price is missing');
    const currency = currencyAt(values, target.currency);
    const price = take(values, 'price', readPrice(currency)) ?? 0;
    if (price <= 0)
      throw new BadCell('price', `"${values.text('price')}" is no price: a sale brings more than nothing`);
    const written = writtenOf(values);
    if (!written.casting && !written.release_name) throw new BadCell('casting', 'the casting is missing');
    const writtenText = JSON.stringify(written);
    const match = matched.get(writtenText) ?? matcher(written);
    if (matched.size < mostMatches) matched.set(writtenText, match);
    if (match.castingId === null) {
      const name = written.casting ?? written.release_name ?? '';
      target.onMissing(name);
      if (!reference)
        throw new BadCell(
          'casting',
          `"${name}" is not in the reference; add it there first, or let the import add it`,
        );
    }
    const sale: Omit<SaleEntry, 'id'> = {
      soldOn,
      price,
      currency,
      castingId: match.castingId,
      variationId: match.variationId,
      asWritten: written,
      grade: take(values, 'grade', readGrade),
      finishState: take(values, 'finish_state', readFinish) ?? 'original',
      missingParts: take(values, 'missing_parts', readParts) ?? [],
      reproductionParts: take(values, 'reproduction_parts', readParts) ?? [],
      source: takeText(values, 'source'),
      reference: takeText(values, 'reference', 500),
      reliabilityPercent: null,
      excluded: false,
      excludedWhy: '',
      disposalId: null,
      notes: '',
    };
    const row = saleToRow(sale);
    if (seen.has(row.identity))
      return { outcome: 'duplicate', note: 'the same sale is recorded already; nothing was changed' };
    seen.add(row.identity);
    return {
      outcome: 'accepted',
      note:
        match.castingId === null
          ? `"${written.casting ?? written.release_name}" is added to the reference`
          : explain(written, match),
      unidentified: match.castingId !== null && match.variationId === null,
      write: () => {
        const ids =
          match.castingId === null
            ? addToReference({ casting: written.release_name ?? '', ...written })
            : undefined;
        insert.run(ids ? saleToRow({ ...sale, ...ids }) : row);
      },
    };
  };
};
