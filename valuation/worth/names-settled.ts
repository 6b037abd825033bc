import type { FittedMarket } from '../market/fitted-market.ts';
import { designMarket } from '../market/market-design.ts';
import { indexMarket } from '../market/market-index.ts';
import { prepareOwn } from '../market/prepare-own.ts';
import { prepareSales } from '../market/prepare-sales.ts';
import { priorVariances } from '../market/settle-variances.ts';
import type { Market, SaleRecord } from '../types.ts';
import { evidencePrecisions, isNarrow, towardsSeries } from './evidence-width.ts';

/** A name that waits, as what it would be once it is settled. */
export interface NameToSettle {
  /** The casting of the market that it is likely to be; null of a new one. */
  castingId: number | null;
  /** The series of the market in which a new casting would stand, null of a new one; equal homes are one. */
  seriesId: number | null;
  home: string;
  /** Its cars, and how many of them lack nothing else for a value. */
  carIds: readonly number[];
  lacking: number;
  /** Its sale records; their casting counts for nothing. */
  sales: readonly SaleRecord[];
}

/** Cars that have a value once names are settled: by each alone, in their order, and by all together. */
export interface ValuedByNames {
  alone: number[];
  together: number;
}

/** Precision that a sale, or a car that was bought, adds to a casting once these names are settled. */
interface Added {
  castingId: number;
  precision: number;
  needs: ReadonlySet<number>;
}

const newIds = (ids: readonly number[]) => {
  let last = ids.reduce((most, id) => Math.max(most, id), 0);
  return () => ++last;
};

/** The market with the names settled, and only those sales and purchases that are under names. */
const settledMarket = (market: Market, names: readonly NameToSettle[]) => {
  const castingId = newIds(market.castings.map(({ id }) => id));
  const seriesId = newIds(market.castings.map(one => one.seriesId));
  const seriesOfHome = new Map<string, number>();
  const seriesOf = new Map(market.castings.map(casting => [casting.id, casting.seriesId]));
  const places = names.map(name => {
    if (name.castingId !== null)
      return { castingId: name.castingId, seriesId: seriesOf.get(name.castingId) ?? 0 };
    const series = name.seriesId ?? seriesOfHome.get(name.home) ?? seriesId();
    if (name.seriesId === null) seriesOfHome.set(name.home, series);
    return { castingId: castingId(), seriesId: series };
  });
  const nameOf = new Map(names.flatMap(({ carIds }, at) => carIds.map(id => [id, at] as const)));
  const settled: Market = {
    ...market,
    castings: [
      ...market.castings,
      ...places.flatMap((place, at) =>
        names[at]?.castingId === null ? [{ id: place.castingId, seriesId: place.seriesId }] : [],
      ),
    ],
    sales: names.flatMap(({ sales }, at) =>
      sales.map(sale => ({ ...sale, castingId: places[at]!.castingId, variationId: null })),
    ),
    purchases: (market.purchases ?? [])
      .filter(({ cars }) => cars.some(({ id }) => nameOf.has(id)))
      .map(purchase => ({
        ...purchase,
        cars: purchase.cars.map(car => {
          const at = nameOf.get(car.id);
          return at === undefined ? car : { ...car, castingId: places[at]!.castingId };
        }),
      })),
    beliefs: [],
  };
  return { settled, places, nameOf };
};

const addedBy = (
  { assumptions, on }: FittedMarket,
  market: Market,
  names: readonly NameToSettle[],
  { settled, nameOf }: Pick<ReturnType<typeof settledMarket>, 'settled' | 'nameOf'>,
): Added[] => {
  const index = indexMarket(settled);
  const { sales, context } = prepareSales(settled, index, assumptions, on);
  // What was paid may stand among all the sale records, and counts as those then.
  const own = prepareOwn({ ...settled, sales: [...market.sales, ...settled.sales] }, context);
  const prepared = [...sales, ...own.sales];
  const { weights, slots, tree } = designMarket(index, prepared, assumptions, {
    lots: own.lots.map(lot => ({ ...lot, parts: lot.parts.map(i => i + sales.length) })),
    seriesOfBeliefs: [],
  });
  const { within, betweenVariations } = priorVariances(assumptions);
  const nameOfSale = new Map(names.flatMap((name, at) => name.sales.map(({ id }) => [id, at] as const)));
  const needsOfCar = new Map<number, ReadonlySet<number>>();
  for (const { cars } of settled.purchases ?? []) {
    const needs = new Set(cars.flatMap(({ id }) => nameOf.get(id) ?? []));
    for (const { id } of cars) needsOfCar.set(id, needs);
  }
  return prepared.map(({ record, from }, i) => {
    const precision = weights[i]! / within;
    const needs =
      from === null
        ? new Set([nameOfSale.get(record.id) ?? -1])
        : from.kind === 'belief'
          ? new Set<number>()
          : needsOfCar.get(from.carId)!;
    return {
      castingId: index.castingIds[tree.variationCasting[slots[i]!]!]!,
      precision:
        precision / (1 + betweenVariations * Math.sign(tree.variationApart?.[slots[i]!] ?? 1) * precision),
      needs,
    };
  });
};

/**
 * How many cars under names that wait are sure to have a value once the names are settled, by the rule by which a
 * car has one (`isEnough`): the sales under the names, what was paid for their cars (a lot only where all its cars
 * have a casting then), and what is known of the castings and series in which they would stand. The price of a
 * lot is shared by what is assumed of its cars, where the fit begins. No variation of theirs is taken for known.
 */
export const valuedByNames = (
  fitted: FittedMarket,
  market: Market,
  names: readonly NameToSettle[],
): ValuedByNames => {
  const { assumptions, inside } = fitted;
  const { index, evidence } = inside;
  const told = evidencePrecisions(fitted);
  const made = settledMarket(market, names);
  const added = addedBy(fitted, market, names, made);
  const seriesOf = new Map(made.settled.castings.map(({ id, seriesId }) => [id, seriesId]));
  const castingTold = (id: number) => told.castings[index.castingPlace.get(id) ?? -1] ?? 0;
  const seriesTold = (id: number) => told.series[index.seriesPlace.get(id) ?? -1] ?? 0;
  const isBelieved = (id: number) => (evidence.seriesBeliefs[index.seriesPlace.get(id) ?? -1] ?? 0) > 0;

  const valued = (members: readonly number[], by: readonly Added[]): number => {
    const castings = new Map<number, number>();
    for (const { castingId, precision } of by)
      castings.set(castingId, (castings.get(castingId) ?? castingTold(castingId)) + precision);
    const series = new Map<number, number>();
    for (const [id, precision] of castings) {
      const of = seriesOf.get(id)!;
      const more = towardsSeries(precision, assumptions) - towardsSeries(castingTold(id), assumptions);
      series.set(of, (series.get(of) ?? seriesTold(of)) + more);
    }
    return members.reduce((sum, at) => {
      const { castingId, seriesId } = made.places[at]!;
      const enough =
        isBelieved(seriesId) ||
        isNarrow(
          {
            variation: 0,
            casting: castings.get(castingId) ?? castingTold(castingId),
            series: series.get(seriesId) ?? seriesTold(seriesId),
          },
          assumptions,
        );
      return sum + (enough ? names[at]!.lacking : 0);
    }, 0);
  };

  const byOne = Map.groupBy(
    added.filter(({ needs }) => needs.size === 1),
    ({ needs }) => [...needs][0]!,
  );
  return {
    alone: names.map((_, at) => valued([at], byOne.get(at) ?? [])),
    together: valued([...names.keys()], added),
  };
};
