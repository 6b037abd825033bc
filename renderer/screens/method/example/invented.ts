import { defaultAssumptions } from '../../../../valuation/default-assumptions.ts';
import { fitMarket } from '../../../../valuation/market/fit-market.ts';
import type { Currency, Market, SaleRecord, Subject } from '../../../../valuation/types.ts';
import { explainWorth } from '../../../../valuation/worth/explain-worth.ts';
import { valueCar } from '../../../../valuation/worth/value-car.ts';
import { readerWords } from '../../../components/words.ts';
import type { WorkedCar } from './worked.ts';

const on = '2026-06-30';
const variationNames = new Map([
  [1, 'Ember, twin lamps'],
  [2, 'Moss, twin lamps'],
  [3, 'Plum, bar lamp'],
]);

type Told = [
  soldOn: string,
  price: number,
  variationId: number | null,
  grade: number | null,
  over?: Partial<SaleRecord>,
];

/** Fourteen invented sales of an invented casting and its neighbour, in whole units of the currency. */
const told: Told[] = [
  ['2026-04-12', 68, 1, 7],
  ['2025-11-02', 52, 1, 6],
  ['2025-03-22', 95, 1, 8.5],
  ['2024-09-14', 31, 1, 5, { missingParts: ['glazing'] }],
  ['2026-02-08', 49, 2, 6],
  ['2025-06-19', 74, 2, 7.5],
  ['2024-05-05', 22, 2, 3.5],
  ['2023-10-28', 45, 2, 9, { finishState: 'restored' }],
  ['2025-12-13', 150, 3, 7.5],
  ['2024-03-16', 120, 3, 7],
  ['2026-01-17', 58, null, null, { source: 'listing' }],
  ['2025-08-30', 34, null, 6, { castingId: 2 }],
  ['2024-11-23', 47, null, 7.5, { castingId: 2 }],
  ['2023-04-01', 19, null, 4, { castingId: 2 }],
];

/**
 * A car worked through by the engine itself on an invented market, for a collection in which no car
 * has a worth yet.
 */
export const inventedCar = (currency: Currency): WorkedCar | null => {
  const unit = defaultAssumptions(currency).decision.leastGain / 5;
  const sales = told.map(
    ([soldOn, price, variationId, grade, over], index): SaleRecord => ({
      id: index + 1,
      soldOn,
      price: price * unit,
      currency,
      castingId: 1,
      variationId,
      grade,
      finishState: 'original',
      missingParts: [],
      reproductionParts: [],
      reliability: null,
      source: 'auction',
      ...over,
    }),
  );
  const market: Market = {
    reportingCurrency: currency,
    castings: [
      { id: 1, seriesId: 1 },
      { id: 2, seriesId: 1 },
    ],
    variations: [
      { id: 1, castingId: 1, rarity: 'common' },
      { id: 2, castingId: 1, rarity: 'common' },
      { id: 3, castingId: 1, rarity: 'scarce' },
    ],
    sales,
    rates: [],
  };
  const subject: Subject = {
    id: 1,
    castingId: 1,
    variationId: 1,
    candidates: [],
    grade: 6.5,
    finishState: 'original',
    parts: [],
    plan: null,
    ownWorth: null,
  };
  const fitted = fitMarket(market, defaultAssumptions(currency), on);
  const { asFound, restored, originalFinish, evidence } = valueCar(fitted, subject);
  if (!asFound) return null;
  const bySale = new Map(sales.map(sale => [sale.id, sale]));
  return {
    id: null,
    number: 'An invented car',
    casting: 'Dovetail',
    variation: variationNames.get(1) ?? '',
    swatch: null,
    basePaint: '',
    grade: 6.5,
    finishState: 'original',
    photo: null,
    worths: { asFound, restored, originalFinish, cost: null },
    worth: asFound,
    evidence,
    currency,
    records: explainWorth(fitted, subject, 'asFound').flatMap(record => {
      const sale = bySale.get(record.id);
      if (!sale) return [];
      const variation =
        sale.castingId === 2
          ? 'Oxbow'
          : (variationNames.get(sale.variationId ?? 0) ?? `${readerWords().dialect.colour} not given`);
      return [
        {
          ...record,
          soldOn: sale.soldOn,
          grade: sale.grade,
          finishState: sale.finishState,
          variation,
          source: sale.source,
        },
      ];
    }),
  };
};
