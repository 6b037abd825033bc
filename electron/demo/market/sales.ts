import { type SaleEntry, saleToRow } from '../../../db/records/sales/sales.ts';
import type { FinishState, Grade, PartName } from '../../../valuation/words.ts';
import type { DemoReference } from '../castings/reference.ts';
import type { DemoVariation } from '../castings/variations.ts';
import type { Row } from '../content.ts';
import { addDays } from '../dates.ts';
import { type Random, randomFrom } from '../random.ts';
import { type DemoMarket, trueLogPrice } from './market.ts';
import { rateOn } from './rates.ts';
import { referenceFor } from './sale-places.ts';

const firstDay = '2018-11-01';
const days = 8 * 365;
const castingOnlyShare = 0.06;

const conditionOf = (random: Random, parts: PartName[]) => {
  const finishState = random.weighted<FinishState>(
    ['original', 'touched up', 'restored', 'customised', 'stripped'],
    [79, 5, 9, 4, 3],
  );
  const grade: Grade =
    finishState === 'restored'
      ? random.whole(15, 20) / 2
      : finishState === 'stripped'
        ? random.whole(6, 11) / 2
        : Math.max(3, Math.min(20, Math.round(random.normal(12, 3.4)))) / 2;
  const losable = parts.filter(part =>
    ['glazing', 'wheels', 'accessory', 'interior', 'labels'].includes(part),
  );
  const missing: PartName[] = [];
  const reproduction: PartName[] = [];
  if (losable.length > 0 && grade < 8 && random.chance(0.11)) missing.push(random.pick(losable));
  const renewable = losable.filter(part => !missing.includes(part));
  if (renewable.length > 0 && random.chance(finishState === 'restored' ? 0.45 : 0.03))
    reproduction.push(random.pick(renewable));
  return { finishState, grade, missing, reproduction };
};

/** Prices are round where people haggle, exact to a pound or dollar where a hammer falls. */
const roundPrice = (price: number, source: string): number => {
  const step =
    source === 'auction' ? (price > 200 ? 10 : 1) : price > 400 ? 25 : price > 60 ? 5 : price > 15 ? 1 : 0.5;
  return Math.max(1, Math.round(price / step) * step);
};

/** What was written beside a record that names its casting only. */
const vagueColour = (random: Random): string =>
  random.pick(['', 'red or orange', 'dark', 'blue?', 'greenish', 'repainted over', 'gold, maybe', 'faded']);

export type DemoSale = Omit<SaleEntry, 'id'>;

/** Sales drawn from the market, in no order. */
export const drawSales = (reference: DemoReference, market: DemoMarket, count: number): DemoSale[] => {
  const random = randomFrom('sales of the demo');
  const weights = reference.variations.map(one => market.supply.get(one.id)!);
  const partsOf = new Map(
    reference.castings.map(casting => [
      casting.id,
      reference.casting_part.filter(part => part.casting_id === casting.id).map(part => part.part),
    ]),
  );
  return Array.from({ length: count }, () => {
    const variation = random.weighted(reference.variations, weights);
    return saleOf(random, market, variation, partsOf.get(variation.castingId)!);
  });
};

const saleOf = (
  random: Random,
  market: DemoMarket,
  variation: DemoVariation,
  parts: PartName[],
): DemoSale => {
  // More and more is noted down as the collector gets going: the density of records rises over
  // the eight years.
  const soldOn = addDays(firstDay, days * random.next() ** 0.8);
  const car = conditionOf(
    random,
    variation.features.accessory === '' ? parts.filter(part => part !== 'accessory') : parts,
  );
  const source = random.weighted(['auction', 'dealer', 'fair', 'private', 'listing'], [34, 16, 18, 10, 22]);
  const currency = random.weighted(['USD', 'GBP', 'EUR'], [77, 15, 8]);
  const log = trueLogPrice(market, variation.id, soldOn, car) + random.normal(0, market.noise[source]!);
  const price = roundPrice(Math.exp(log) / rateOn(currency, soldOn), source);
  const castingOnly = random.chance(castingOnlyShare);
  const graded = !random.chance(0.05);
  const colour = castingOnly ? vagueColour(random) : '';
  return {
    soldOn,
    price: Math.round(price * 100),
    currency,
    castingId: variation.castingId,
    variationId: castingOnly ? null : variation.id,
    asWritten: castingOnly ? { casting: variation.casting, ...(colour !== '' && { colour }) } : {},
    grade: graded ? car.grade : null,
    finishState: car.finishState,
    missingParts: car.missing,
    reproductionParts: car.reproduction,
    source,
    reference: referenceFor(random, source, currency),
    reliabilityPercent: null,
    excluded: false,
    excludedWhy: '',
    disposalId: null,
    notes: '',
  };
};

/** Rows in order of date, each with the identity that tells it from the others. */
export const saleRows = (sales: DemoSale[]): Row<'sale_record'>[] => {
  const taken = new Map<string, number>();
  return sales
    .toSorted((a, b) => (a.soldOn < b.soldOn ? -1 : a.soldOn > b.soldOn ? 1 : 0))
    .map((sale, i) => {
      const row = saleToRow(sale);
      const times = (taken.get(row.identity) ?? 0) + 1;
      taken.set(row.identity, times);
      return { id: i + 1, ...row, identity: times === 1 ? row.identity : `${row.identity}|${times}` };
    });
};
