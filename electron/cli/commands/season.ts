import { mostInSeason, partLimits, valueAfter } from '../../../valuation/choice/season-offer.ts';
import { decimalToMinor } from '../../../valuation/money.ts';
import type { WorkKind } from '../../../valuation/words.ts';
import type { DecisionSummary, SeasonChoice, SeasonView } from '../../api/views.ts';
import type { CarWish } from '../arguments.ts';
import { type Api, withCollection } from '../collection.ts';
import { carIds } from '../named.ts';
import { print, Refused } from '../terminal.ts';
import { named, seasonLines, shown } from './seasons.ts';

export interface SeasonWishes {
  hours?: number | 'none';
  cash?: string;
  mostCars?: number | 'none';
  perCasting?: number | 'none';
  part?: Record<string, number | null>;
  must?: CarWish[];
  never?: string[];
  free?: string[];
}

type SavedCar = NonNullable<Parameters<Api['work']['saveSeason']>[0]['cars']>[number];

const everything = { lot: null, finish: [], below: null, not: [], recommendation: [], decided: null };
/** So many cars are asked for at once. */
const together = 2000;

const isBegun = ({ onBench, finishedOn }: SeasonView['cars'][number]): boolean =>
  onBench || finishedOn !== null;

/** How cars stand to the season: what is asked now goes before what is saved. */
const standingsOf = async (
  api: Api,
  { must = [], never = [], free = [] }: SeasonWishes,
  saved?: SeasonView,
) => {
  const idOf = await carIds(api, [...must.map(({ number }) => number), ...never, ...free]);
  const required = new Map<number, WorkKind | null>();
  const excluded = new Set(saved?.excluded);
  for (const { carId, standing, kind } of saved?.cars ?? [])
    if (standing === 'must') required.set(carId, kind);
  const asked = new Set<number>();
  const take = (number: string): number => {
    const id = idOf(number);
    if (asked.has(id)) throw new Refused(`${number} is named twice: a car is required, left out, or free.`);
    asked.add(id);
    required.delete(id);
    excluded.delete(id);
    return id;
  };
  for (const { number, option } of must) required.set(take(number), option);
  for (const number of never) excluded.add(take(number));
  for (const number of free) take(number);
  return { required, excluded };
};

const weighedCars = async (api: Api, ids: readonly number[]): Promise<Map<number, DecisionSummary>> => {
  const cars = new Map<number, DecisionSummary>();
  for (let at = 0; at < ids.length; at += together)
    for (const one of await api.decisions.weighed({ ids: ids.slice(at, at + together) }))
      cars.set(one.car.id, one);
  return cars;
};

/** What is saved of the cars that were chosen, with what is expected of each today. */
const savedCars = async (
  api: Api,
  { taken }: SeasonChoice,
  required: ReadonlyMap<number, unknown>,
  saved?: SeasonView,
): Promise<SavedCar[]> => {
  const weighed = await weighedCars(
    api,
    taken.map(({ id }) => id),
  );
  const colours = new Map(saved?.cars.map(({ carId, colour }) => [carId, colour]));
  return taken.map(({ id, option, gain, cash, hours }) => {
    const one = weighed.get(id);
    return {
      carId: id,
      kind: option,
      standing: required.has(id) ? 'must' : 'in',
      expected: gain,
      cost: cash,
      hours,
      found: one?.car.worths.asFound?.mid ?? null,
      after: one ? valueAfter({ ...one.car, planned: one.plan?.option ?? null }, option) : null,
      colour: colours.get(id) ?? '',
    };
  });
};

/** A limit as it is asked for, else as it is saved. */
const limit = <T>(asked: T | 'none' | undefined, saved: T | null | undefined): T | null =>
  asked === 'none' ? null : (asked ?? saved ?? null);

/** What there is left for cars that are not begun. */
const left = (most: number | null, begun: readonly (number | null)[]): number | null =>
  most === null ? null : Math.max(most - begun.reduce<number>((sum, one) => sum + (one ?? 0), 0), 0);

/** Chooses the best set for a season, new or saved, and saves it as the current one; returns its id. */
const chooseAndSave = async (
  api: Api,
  {
    name,
    wishes,
    currency,
    saved,
  }: { name: string; wishes: SeasonWishes; currency: string; saved?: SeasonView },
) => {
  const { required, excluded } = await standingsOf(api, wishes, saved);
  const begun = saved?.cars.filter(isBegun) ?? [];
  const busy = new Set(begun.map(({ carId }) => carId));
  const late = begun.find(({ carId }) => excluded.has(carId));
  if (late) throw new Refused(`${late.inventoryNumber} cannot be left out: work on it has begun.`);
  const same = saved?.currency === currency;
  const cash =
    wishes.cash === undefined || wishes.cash === 'none' ? wishes.cash : decimalToMinor(wishes.cash, currency);
  const limits = {
    hours: limit(wishes.hours, saved?.hours),
    cash: limit(cash, same ? saved.cash : null),
    mostCars: limit(wishes.mostCars, saved?.mostCars),
    perCasting: limit(wishes.perCasting, saved?.perCasting),
    parts: { ...saved?.parts, ...wishes.part },
  };
  const { parts } = await api.decisions.facts(everything);
  const unknown = Object.keys(wishes.part ?? {}).find(part => !parts.includes(part));
  if (unknown !== undefined)
    throw new Refused(
      `No plan asks for a part "${unknown}". Plans ask for: ${parts.join(', ') || 'none of the shelf'}.`,
    );
  const stock = partLimits(limits.parts, parts, await api.collection.parts());
  const ahead = [...required].filter(([id]) => !busy.has(id));
  const choice = await api.decisions.season({
    filter: everything,
    hours: left(
      limits.hours,
      begun.map(({ hours }) => hours),
    ),
    cash: left(
      limits.cash,
      begun.map(({ cost }) => (same ? cost : null)),
    ),
    parts: Object.fromEntries([...stock].filter((one): one is [string, number] => one[1] !== null)),
    cars: Math.max(Math.min(limits.mostCars ?? mostInSeason, mostInSeason) - begun.length, 0),
    perCasting: limits.perCasting,
    must: ahead.map(([id]) => id),
    by: ahead.flatMap(([carId, option]) => (option === null ? [] : [{ carId, option }])),
    mustNot: [...excluded, ...busy],
  });
  const kept = begun.map(car =>
    same ? car : { ...car, expected: null, cost: null, found: null, after: null },
  );
  const cars = [...kept, ...(await savedCars(api, choice, required, saved))];
  const { id } = await api.work.saveSeason({
    id: saved?.id ?? null,
    name: saved?.name ?? name,
    current: true,
    currency,
    ...limits,
    notes: saved?.notes ?? '',
    expected: cars.reduce((sum, { expected }) => sum + (expected ?? 0), 0),
    cars,
    excluded: [...excluded],
  });
  return { id, against: choice.against };
};

/**
 * `playworn season`: chooses what to do, of all that can be done with each car, and saves it under this name as
 * the current season. A season of this name is chosen anew, within its limits and what is required of it,
 * but for what is said now; what is on the bench or finished stays in it.
 */
export const season = (
  name: string,
  { collection, json, ...wishes }: SeasonWishes & { collection: string; json?: boolean },
): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    const saved = named(await api.work.seasons(), name);
    if (saved && saved.closedOn !== null)
      throw new Refused(`${saved.name} was closed on ${saved.closedOn}: give the season another name.`);
    const { reportingCurrency } = await api.collection.summary();
    const { id, against } = await chooseAndSave(api, {
      name,
      wishes,
      currency: reportingCurrency,
      ...(saved && { saved }),
    });
    const now = (await api.work.seasons()).find(one => one.id === id)!;
    const numbers = now.cars.filter(({ carId }) => against.includes(carId));
    const advised = numbers.map(({ inventoryNumber }) => inventoryNumber);
    print(json, { ...shown(now), advisedAgainst: advised }, one => [
      ...seasonLines(one),
      ...(advised.length > 0 ? ['', `Required although advised against: ${advised.join(', ')}`] : []),
    ]);
  });
