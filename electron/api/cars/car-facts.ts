import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { outerBounds } from '../../../valuation/statistics/outer-bounds.ts';
import type { Currency, Minor } from '../../../valuation/types.ts';
import { isOwned, isSeenOnly } from '../figures/owned.ts';
import type { CarChoices, CarsFacts, CarTotals } from '../views.ts';
import { type CarListFilter, type FilterPart, keptOutBy } from './car-filter.ts';
import { adviceOf, gainOf, type ListedCars, rarityOf, seriesOf, statusOf } from './listed-cars.ts';

/** What the cars that are shown come to. */
const totalsOf = (list: ListedCars, cars: readonly BriefCar[]): CarTotals => {
  const here = cars.filter(car => isOwned(list.seen, car));
  const costs = new Map<Currency, { minor: Minor; cars: number }>();
  const totals = { valued: 0, asFound: 0, withoutCost: 0, gain: 0, gaining: 0 };
  for (const car of here) {
    const mid = list.midOf(car.id);
    if (mid !== null) {
      totals.valued += 1;
      totals.asFound += mid;
    }
    const currency = car.lotId === null ? undefined : list.lots.get(car.lotId)?.currency;
    if (car.cost === null || currency === undefined) totals.withoutCost += 1;
    else {
      const sum = costs.get(currency) ?? { minor: 0, cars: 0 };
      costs.set(currency, { minor: sum.minor + car.cost, cars: sum.cars + 1 });
    }
    const gain = gainOf(list, car) ?? 0;
    if (gain > 0) {
      totals.gain += gain;
      totals.gaining += 1;
    }
  }
  return {
    cars: cars.length,
    here: here.length,
    seen: cars.filter(car => isSeenOnly(list.seen, car)).length,
    ...totals,
    costs: [...costs]
      .map(([currency, sum]) => ({ currency, ...sum }))
      .sort((a, b) => b.cars - a.cars || a.currency.localeCompare(b.currency)),
  };
};

/** Between what amounts the values of the cars that are still here lie, for the axis that they share. */
export const valueBounds = ({ figures }: ListedCars, cars: readonly BriefCar[]): CarsFacts['values'] => {
  // What is not known stays nothing, and bounds nothing.
  const amounts = new Float64Array(cars.length * 5);
  let at = 0;
  const bounds = [
    figures.column(({ worths }) => worths.asFound?.low),
    figures.column(({ worths }) => worths.asFound?.high),
    figures.column(({ worths }) => worths.restored?.high),
    figures.column(({ worths }) => worths.originalFinish?.low),
    figures.column(({ worths }) => worths.originalFinish?.high),
  ];
  for (const { id, isSold } of cars) {
    if (isSold) continue;
    for (const bound of bounds) {
      amounts[at] = bound(id) ?? 0;
      at += 1;
    }
  }
  return outerBounds(amounts);
};

const counter = <Key>() => {
  const counts = new Map<Key, number>();
  return {
    counts,
    add: (key: Key) => counts.set(key, (counts.get(key) ?? 0) + 1),
  };
};

const counted = <Key>(counts: ReadonlyMap<Key, number>) =>
  [...counts].map(([value, cars]) => ({ value, cars }));

/** Sums and counts of the list under a filter; each choice of a part counts with the rest of the filter holding. */
export const carFacts = (list: ListedCars, filter: CarListFilter): CarsFacts => {
  const outBy = keptOutBy(list, filter);
  const shown: BriefCar[] = [];
  const keys = {
    lots: (car: BriefCar) => car.lotId,
    series: (car: BriefCar) => seriesOf(list, car),
    finish: (car: BriefCar) => car.finishState,
    grade: (car: BriefCar) => car.grade,
    status: (car: BriefCar) => statusOf(list, car),
    recommendation: (car: BriefCar) => adviceOf(list, car),
    rarity: (car: BriefCar) => rarityOf(list, car),
  };
  const counts = {
    lots: counter<number | null>(),
    series: counter<string | null>(),
    finish: counter<string | null>(),
    grade: counter<number | null>(),
    status: counter<string | null>(),
    recommendation: counter<string | null>(),
    rarity: counter<string | null>(),
  };
  const count = (part: FilterPart, car: BriefCar) =>
    (counts[part] as ReturnType<typeof counter<string | number | null>>).add(keys[part](car));
  const parts = Object.keys(counts) as FilterPart[];
  for (const car of list.cars) {
    const out = outBy(car);
    if (out === 'more') continue;
    if (out !== null) count(out, car);
    else {
      shown.push(car);
      for (const part of parts) count(part, car);
    }
  }
  const lotIds = new Set(list.cars.map(({ lotId }) => lotId));
  const choices: CarChoices = {
    lots: [...list.lots.values()]
      .filter(({ id }) => lotIds.has(id))
      .map(({ id, name }) => ({ value: id, label: name, cars: counts.lots.counts.get(id) ?? 0 })),
    series: [...new Set(list.cars.map(car => seriesOf(list, car)))]
      .filter(series => series !== null)
      .map(series => ({ value: series, cars: counts.series.counts.get(series) ?? 0 })),
    finish: counted(counts.finish.counts),
    grade: counted(counts.grade.counts),
    status: counted(counts.status.counts),
    recommendation: counted(counts.recommendation.counts),
    rarity: counted(counts.rarity.counts),
  };
  const { index } = list;
  return {
    workingOut: list.workingOut,
    unread: list.cars.filter(({ isUnread }) => isUnread).length,
    totals: totalsOf(list, shown),
    values: valueBounds(list, shown),
    choices,
    casting: (filter.casting === null ? undefined : index.castings.get(filter.casting)?.name) ?? null,
    variation:
      (filter.variation === null ? undefined : index.variations.get(filter.variation)?.label) ?? null,
  };
};
