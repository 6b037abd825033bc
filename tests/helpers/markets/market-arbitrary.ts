import fc from 'fast-check';
import type { Market, SaleRecord, Subject } from '../../../valuation/types.ts';
import { finishStates, grades, partNames, rarities } from '../../../valuation/words.ts';

/** The effective date of the arbitrary markets. */
export const on = '2025-06-30';

/** A subject of which only what is given is known. */
export const subjectOf = (known: Partial<Subject>): Subject => ({
  id: 1,
  castingId: null,
  variationId: null,
  candidates: [],
  grade: 6,
  finishState: 'original',
  parts: [],
  plan: null,
  ownWorth: null,
  ...known,
});

/** A plain sale record of variation 1 of casting 1, at C6 in original finish, but for what is given. */
export const saleOf = (known: Partial<SaleRecord>): SaleRecord => ({
  id: 1,
  soldOn: '2025-01-15',
  price: 5000,
  currency: 'USD',
  castingId: 1,
  variationId: 1,
  grade: 6,
  finishState: 'original',
  missingParts: [],
  reproductionParts: [],
  reliability: null,
  source: 'auction',
  ...known,
});

const dates = fc
  .tuple(
    fc.integer({ min: 2017, max: 2025 }),
    fc.integer({ min: 1, max: 6 }),
    fc.integer({ min: 1, max: 28 }),
  )
  .map(([year, month, day]) => `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`);

const sale = fc.record({
  place: fc.nat(1_000_000),
  log: fc.double({ min: -0.8, max: 0.8, noNaN: true }),
  soldOn: dates,
  grade: fc.option(fc.constantFrom(...grades), { nil: null, freq: 8 }),
  finishState: fc.constantFrom(...finishStates),
  named: fc.integer({ min: 0, max: 9 }).map(x => x > 0),
  missing: fc.subarray([...partNames], { maxLength: 1 }),
  source: fc.constantFrom('auction', 'dealer', 'listing'),
});

/**
 * Markets of one to three series with one to four castings each, up to five variations to a casting, and up
 * to sixty sales of which prices lie within a factor of two or so of their variation's level; some ungraded,
 * some naming the casting only, some incomplete.
 */
export const marketArbitrary: fc.Arbitrary<Market> = fc
  .record({
    series: fc.array(
      fc.array(
        fc.record({
          level: fc.double({ min: -0.8, max: 0.8, noNaN: true }),
          variations: fc.array(
            fc.record({
              rarity: fc.option(fc.constantFrom(...rarities), { nil: null, freq: 6 }),
              level: fc.double({ min: -0.6, max: 0.6, noNaN: true }),
            }),
            { minLength: 1, maxLength: 5 },
          ),
        }),
        { minLength: 1, maxLength: 4 },
      ),
      { minLength: 1, maxLength: 3 },
    ),
    sales: fc.array(sale, { minLength: 12, maxLength: 60 }),
  })
  .map(({ series, sales }) => {
    const market: Market = { reportingCurrency: 'USD', castings: [], variations: [], sales: [], rates: [] };
    const levels: number[] = [];
    series.forEach((castings, s) => {
      for (const { level, variations } of castings) {
        const castingId = market.castings.push({ id: market.castings.length + 1, seriesId: s + 1 });
        for (const variation of variations) {
          market.variations.push({ id: market.variations.length + 1, castingId, rarity: variation.rarity });
          levels.push(level + variation.level);
        }
      }
    });
    market.sales = sales.map((drawn, i) => {
      const place = drawn.place % market.variations.length;
      const variation = market.variations[place]!;
      const log = 9 + levels[place]! + drawn.log - 0.25 * (10 - (drawn.grade ?? 6));
      return saleOf({
        id: i + 1,
        soldOn: drawn.soldOn,
        price: Math.round(Math.exp(log)) * 10,
        castingId: variation.castingId,
        variationId: drawn.named ? variation.id : null,
        grade: drawn.grade,
        finishState: drawn.finishState,
        missingParts: drawn.missing,
        source: drawn.source,
      });
    });
    return market;
  });
