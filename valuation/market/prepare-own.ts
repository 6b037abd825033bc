import { dayNumber } from '../calendar.ts';
import { eightyPercent } from '../statistics/normal.ts';
import type { Belief, Market, OwnAsideCause, Purchase, SaleRecord } from '../types.ts';
import { type PrepareContext, type PreparedSale, prepareSale } from './prepare-sales.ts';

/** The kind of source under which what the owner paid stands in `AssumptionSet.sourceReliability`. */
export const ownPurchaseSource = 'own purchase';
/** A record within so many days of a purchase, of the same price, is the same sale. */
const sameSaleDays = 3;

/**
 * A lot bought whole: the places of its cars among the sales, its price in logs as they have theirs, and its
 * weight as one sale.
 */
export interface PreparedLot {
  parts: number[];
  /** ln of its cost in minor units of the reporting currency, at the day on which it was bought. */
  price: number;
  weight: number;
}

/** What was paid, or what is believed, that could not be used, and why. */
export interface OwnAside {
  of: { lotId: number; carIds: number[] } | { beliefId: number };
  cause: OwnAsideCause;
}

export interface PreparedOwn {
  /** Cars that were bought, and beliefs, to stand after the sale records; `lot` counts from 0. */
  sales: PreparedSale[];
  lots: PreparedLot[];
  /**
   * Series of each place that a belief about a whole series has after the castings, in the order of `sales`.
   */
  seriesOfBeliefs: number[];
  aside: OwnAside[];
}

/**
 * Finds the sale record that a purchase was entered as, too: same currency, price with or without costs,
 * casting, and nearly the same day.
 */
const recordFinder = (sales: readonly SaleRecord[]) => {
  const byPrice = Map.groupBy(sales, ({ currency, price }) => `${currency} ${price}`);
  return ({ boughtOn, currency, total, price, cars }: Purchase): SaleRecord | undefined => {
    const castings = new Set(cars.map(({ castingId }) => castingId));
    const day = dayNumber(boughtOn);
    return [...new Set([total, price])]
      .flatMap(amount => byPrice.get(`${currency} ${amount}`) ?? [])
      .find(
        ({ castingId, soldOn }) =>
          castings.has(castingId) && Math.abs(dayNumber(soldOn) - day) <= sameSaleDays,
      );
  };
};

const purchaseProblem = (
  { cars, leftOut }: Purchase,
  sameSale: SaleRecord | undefined,
): OwnAsideCause | null => {
  if (leftOut) return { kind: 'left-out' };
  const unidentified = cars.filter(({ castingId }) => castingId === null).length;
  if (unidentified > 0 || cars.length === 0) return { kind: 'unidentified-cars', cars: unidentified };
  const changed = cars.filter(({ changedSince }) => changedSince).length;
  if (changed > 0) return { kind: 'changed-cars', cars: changed };
  const open = cars.filter(({ hasOpenFinish }) => hasOpenFinish).length;
  if (open > 0) return { kind: 'open-finish', cars: open };
  return sameSale ? { kind: 'entered-as-sale', saleId: sameSale.id } : null;
};

const preparePurchase = (purchase: Purchase, context: PrepareContext): PreparedSale[] | OwnAsideCause => {
  const { lotId, boughtOn, currency, total, cars } = purchase;
  const prepared: PreparedSale[] = [];
  for (const { id, castingId, changedSince: _, hasOpenFinish: __, ...car } of cars) {
    const sale = prepareSale(
      {
        ...car,
        id,
        castingId: castingId!,
        soldOn: boughtOn,
        price: total,
        currency,
        reliability: null,
        source: ownPurchaseSource,
      },
      context,
    );
    if ('kind' in sale) return sale;
    const bought = { lotId, carId: id, on: boughtOn, grade: car.grade };
    const from =
      cars.length === 1
        ? { kind: 'purchase' as const, ...bought }
        : { kind: 'lot' as const, ...bought, total, cars: cars.length };
    prepared.push({ ...sale, from });
  }
  return prepared;
};

/** A belief as the sale that it stands for, at a casting of its series where it is about the whole of it. */
const prepareBelief = (belief: Belief, context: PrepareContext): PreparedSale | OwnAsideCause => {
  const { id, level, of, low, high, currency, grade, finishState, believedOn } = belief;
  if (!(low > 0 && high >= low))
    throw new RangeError(`belief ${id} must have 0 < low ≤ high, not ${low} and ${high}`);
  const { index, assumptions } = context;
  let casting: number | undefined;
  if (level === 'series') {
    const series = index.seriesPlace.get(of);
    casting = index.castingSeries.indexOf(series ?? -1);
    if (casting < 0) return { kind: 'unknown-series' };
  } else if (level === 'casting') casting = index.castingPlace.get(of);
  else {
    const variation = index.variationPlace.get(of);
    if (variation === undefined) return { kind: 'unknown-variation' };
    casting = index.variationCasting[variation];
  }
  if (casting === undefined) return { kind: 'unknown-casting' };
  const sale = prepareSale(
    {
      id,
      soldOn: believedOn,
      price: Math.round(Math.sqrt(low * high)),
      currency,
      castingId: index.castingIds[casting]!,
      variationId: level === 'variation' ? of : null,
      grade,
      finishState,
      missingParts: [],
      reproductionParts: [],
      reliability: 1,
      source: '',
    },
    context,
  );
  if ('kind' in sale) return sale;
  const weight = sale.weight * (assumptions.beliefSales ?? 1);
  if (!(weight > 0)) return { kind: 'no-reliability' };
  return {
    ...sale,
    price: (Math.log(low) + Math.log(high)) / 2 + sale.currencyLog,
    weight,
    range: ((Math.log(high) - Math.log(low)) / 2 / eightyPercent) ** 2,
    from: { kind: 'belief', beliefId: id, level },
  };
};

/**
 * What the owner paid and believes, as sales that stand beside the records. A car bought singly is a sale at
 * all that its buyer paid. A lot is one sale that its cars share, each a part of it, and only where the
 * castings of all are known. A purchase that stands among the sale records is left to them. A belief stands
 * for so many sales of a car at its place: of its variation, or of a common car that has nothing of its own
 * beside its casting or series. Throws RangeError on bad figures, as `prepareSales` does.
 */
export const prepareOwn = (market: Market, context: PrepareContext): PreparedOwn => {
  const { purchases = [], beliefs = [] } = market;
  const own: PreparedOwn = { sales: [], lots: [], seriesOfBeliefs: [], aside: [] };
  const sameSaleOf = purchases.length > 0 ? recordFinder(market.sales) : () => undefined;
  const firstCar = ({ cars }: Purchase) => cars[0]?.id ?? 0;
  for (const purchase of [...purchases].sort((a, b) => a.lotId - b.lotId || firstCar(a) - firstCar(b))) {
    const problem = purchaseProblem(purchase, sameSaleOf(purchase));
    const prepared = problem ?? preparePurchase(purchase, context);
    if ('kind' in prepared) {
      const carIds = purchase.cars.map(({ id }) => id);
      own.aside.push({ of: { lotId: purchase.lotId, carIds }, cause: prepared });
    } else if (prepared.length === 1) own.sales.push(prepared[0]!);
    else {
      const { price, weight } = prepared[0]!;
      const parts = prepared.map((_, i) => own.sales.length + i);
      own.sales.push(...prepared.map(sale => ({ ...sale, lot: own.lots.length })));
      own.lots.push({ parts, price, weight });
    }
  }
  for (const belief of [...beliefs].sort((a, b) => a.id - b.id)) {
    const prepared = prepareBelief(belief, context);
    if ('kind' in prepared) own.aside.push({ of: { beliefId: belief.id }, cause: prepared });
    else if (belief.level !== 'series') own.sales.push(prepared);
    else {
      const { castingSeries, castingIds } = context.index;
      const series = castingSeries[prepared.casting]!;
      own.sales.push({ ...prepared, casting: castingIds.length + own.seriesOfBeliefs.length });
      own.seriesOfBeliefs.push(series);
    }
  }
  return own;
};
