import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { outerBounds } from '../../../valuation/statistics/outer-bounds.ts';
import type { Currency, Minor } from '../../../valuation/types.ts';
import { isOwned, isSeenOnly } from '../figures/owned.ts';
import type { CarChoices, CarsFacts, CarTotals } from '../views.ts';
import { type CarListFilter, type FilterPart, keptOutBy } from './car-filter.ts';
import { adviceOf, gainOf, type ListedCars, rarityOf, seriesOf, statusOf } from './listed-cars.ts';

/** What the cars that are shown come to. */
const totalsOf = (list: ListedCars, cars: readonly BriefCar[]): CarTotals => {
  const costs = new Map<Currency, { minor: Minor; cars: number }>();
  const totals = { here: 0, seen: 0, valued: 0, asFound: 0, withoutCost: 0, gain: 0, gaining: 0 };
  for (const car of cars) {
    if (isSeenOnly(list.seen, car)) totals.seen += 1;
    if (!isOwned(list.seen, car)) continue;
    totals.here += 1;
    const mid = list.midOf(car.id);
    if (mid !== null) {
      totals.valued += 1;
      totals.asFound += mid;
    }
    const currency = car.lotId === null ? undefined : list.lots.get(car.lotId)?.currency;
    if (car.cost === null || currency === undefined) totals.withoutCost += 1;
    else {
      const sum = costs.get(currency) ?? { minor: 0, cars: 0 };
      sum.minor += car.cost;
      sum.cars += 1;
      costs.set(currency, sum);
    }
    const gain = gainOf(list, car) ?? 0;
    if (gain > 0) {
      totals.gain += gain;
      totals.gaining += 1;
    }
  }
  return {
    cars: cars.length,
    ...totals,
    costs: [...costs]
      .map(([currency, sum]) => ({ currency, ...sum }))
      .sort((a, b) => b.cars - a.cars || a.currency.localeCompare(b.currency)),
  };
};

/** Of more cars than this every second, third … is looked at: an axis needs no more. */
const enoughForAxis = 10_000;

/** Between what amounts the values of the cars that are still here lie, for the axis that they share. */
export const valueBounds = ({ figures }: ListedCars, cars: readonly BriefCar[]): CarsFacts['values'] => {
  const bounds = [
    figures.column(({ worths }) => worths.asFound?.low),
    figures.column(({ worths }) => worths.asFound?.high),
    figures.column(({ worths }) => worths.restored?.high),
    figures.column(({ worths }) => worths.originalFinish?.low),
    figures.column(({ worths }) => worths.originalFinish?.high),
  ];
  const step = Math.max(1, Math.ceil(cars.length / enoughForAxis));
  const amounts: number[] = [];
  for (let i = 0; i < cars.length; i += step) {
    const { id, isSold } = cars[i]!;
    // What is not known bounds nothing.
    if (!isSold) for (const bound of bounds) amounts.push(bound(id) ?? 0);
  }
  return outerBounds(amounts);
};

/** How many cars each choice of a part has, in the order in which the choices are met. */
const counter = <Key>() => {
  const counts = new Map<Key, { value: Key; cars: number }>();
  return {
    of: (key: Key): number => counts.get(key)?.cars ?? 0,
    all: () => [...counts.values()],
    add: (value: Key): void => {
      const found = counts.get(value);
      if (found) found.cars += 1;
      else counts.set(value, { value, cars: 1 });
    },
  };
};

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
  const lotIds = new Set<number | null>();
  const seriesNames = new Set<string | null>();
  let unread = 0;
  for (const car of list.cars) {
    lotIds.add(car.lotId);
    seriesNames.add(seriesOf(list, car));
    if (car.isUnread) unread += 1;
    const out = outBy(car);
    if (out === 'more') continue;
    if (out !== null) count(out, car);
    else {
      shown.push(car);
      for (const part of parts) count(part, car);
    }
  }
  const choices: CarChoices = {
    lots: [...list.lots.values()]
      .filter(({ id }) => lotIds.has(id))
      .map(({ id, name }) => ({ value: id, label: name, cars: counts.lots.of(id) })),
    series: [...seriesNames]
      .filter(series => series !== null)
      .map(series => ({ value: series, cars: counts.series.of(series) })),
    finish: counts.finish.all(),
    grade: counts.grade.all(),
    status: counts.status.all(),
    recommendation: counts.recommendation.all(),
    rarity: counts.rarity.all(),
  };
  const { index } = list;
  return {
    workingOut: list.workingOut,
    unread,
    totals: totalsOf(list, shown),
    values: valueBounds(list, shown),
    choices,
    casting: (filter.casting === null ? undefined : index.castings.get(filter.casting)?.name) ?? null,
    variation:
      (filter.variation === null ? undefined : index.variations.get(filter.variation)?.label) ?? null,
  };
};
