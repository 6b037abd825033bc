import { rowToSale, saleToMarket } from '../../../db/records/sales/sales.ts';
import type { ValuationSnapshot } from '../../../db/records/worth/valuations.ts';
import {
  defaultAssumptions,
  fitMarket,
  type Market,
  valueCar,
  type Worth,
} from '../../../valuation/index.ts';
import { basisOfWorths } from '../../../valuation/words.ts';
import type { DemoContent } from '../content.ts';

const currency = 'USD';

/** The demo's market as plain values, from the rows that are about to be written. */
const marketOf = ({ tables }: DemoContent): Market => {
  const castingOfRelease = new Map(tables.release.map(release => [release.id, release.casting_id]));
  return {
    reportingCurrency: currency,
    castings: tables.casting.map(casting => ({ id: casting.id, seriesId: casting.series_id })),
    variations: tables.variation.map(variation => ({
      id: variation.id,
      castingId: castingOfRelease.get(variation.release_id) ?? 0,
      rarity: variation.rarity ?? null,
    })),
    sales: tables.sale_record.flatMap(row => {
      const sale = rowToSale({
        as_written: '{}',
        finish_state: 'original',
        missing_parts: '[]',
        reproduction_parts: '[]',
        source: '',
        reference: '',
        excluded: 0,
        excluded_why: '',
        notes: '',
        casting_id: null,
        variation_id: null,
        grade_half: null,
        reliability_percent: null,
        disposal_id: null,
        unread: '[]',
        heard: '[]',
        ...row,
      });
      return saleToMarket(sale) ?? [];
    }),
    rates: tables.exchange_rate.map(rate => ({
      currency: rate.currency,
      on: rate.on_date,
      rate: rate.rate_e9 / 1e9,
    })),
  };
};

const rangeOf = (worth: Worth | null) => worth && { low: worth.low, mid: worth.mid, high: worth.high };

/**
 * What the engine made of the demo's cars on the days on which its owner looked, each by the
 * sales known by then.
 */
export const pastWorths = async (
  content: DemoContent,
  signal: AbortSignal,
): Promise<(ValuationSnapshot & { evidence: object })[]> => {
  const market = marketOf(content);
  const assumptions = defaultAssumptions(currency);
  const cars = new Map(content.tables.car.map(car => [car.id, car]));
  const candidates = Map.groupBy(content.tables.car_candidate, candidate => candidate.car_id);
  const worths: (ValuationSnapshot & { evidence: object })[] = [];
  for (const { on, cars: then } of content.snapshots) {
    await new Promise(resolve => setImmediate(resolve));
    signal.throwIfAborted();
    const fitted = fitMarket(market, assumptions, on);
    for (const { carId, grade, finishState, parts } of then) {
      const car = cars.get(carId);
      if (!car) continue;
      const valuation = valueCar(fitted, {
        id: carId,
        castingId: car.casting_id ?? null,
        variationId: car.variation_id ?? null,
        candidates: (candidates.get(carId) ?? []).map(candidate => candidate.variation_id),
        grade,
        finishState,
        parts,
        plan: null,
        ownWorth: null,
      });
      worths.push({
        carId,
        on,
        currency,
        basis: basisOfWorths,
        asFound: rangeOf(valuation.asFound),
        restored: rangeOf(valuation.restored),
        originalFinish: rangeOf(valuation.originalFinish),
        evidence: valuation.evidence,
      });
    }
  }
  return worths;
};
