import { minorToDecimal } from '../../../valuation/money.ts';
import type { Minor } from '../../../valuation/types.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import type { SeasonView } from '../../api/views.ts';
import { type Api, withCollection } from '../collection.ts';
import { print, Refused, table } from '../terminal.ts';

interface Common {
  collection: string;
  json?: boolean;
}

const sum = (amounts: (Minor | null)[]): Minor | null => {
  const known = amounts.filter(one => one !== null);
  return known.length > 0 ? known.reduce((all, one) => all + one, 0) : null;
};

/** A season as it is printed, amounts as decimals. */
export const shown = (season: SeasonView) => {
  const money = (minor: Minor | null) => (minor === null ? null : minorToDecimal(minor, season.currency));
  const done = season.cars.filter(({ finishedOn }) => finishedOn !== null);
  return {
    name: season.name,
    current: season.current,
    madeOn: season.madeOn,
    closedOn: season.closedOn,
    currency: season.currency,
    hours: season.hours,
    cash: money(season.cash),
    perCasting: season.perCasting,
    parts: season.parts,
    mostCars: season.mostCars,
    expected: money(season.expected),
    expectedRange: { low: money(season.expectedLow), high: money(season.expectedHigh) },
    /** Of its finished cars of which both are known. */
    expectedOfFinished: money(sum(done.map(car => (car.brought === null ? null : car.expected)))),
    broughtByFinished: money(sum(done.map(car => (car.expected === null ? null : car.brought)))),
    cars: season.cars.map(car => ({
      number: car.inventoryNumber,
      kind: car.kind,
      mustBeIn: car.standing === 'must',
      colour: car.colour || null,
      state: car.finishedOn !== null ? 'finished' : car.onBench ? 'on the bench' : 'waiting',
      expected: money(car.expected),
      cost: money(car.cost),
      hours: car.hours,
      finishedOn: car.finishedOn,
      hoursTaken: car.hoursTaken,
      spent: money(car.spent),
      now: money(car.now),
      brought: money(car.brought),
    })),
  };
};

type Shown = ReturnType<typeof shown>;

/** What the whole was expected to gain, where that is known. */
const expectedLines = ({ expected, expectedRange: { low, high }, currency }: Shown): string[] =>
  expected === null
    ? []
    : [`Expected ${expected} ${currency}${low !== null && high !== null ? ` (${low} to ${high})` : ''}`];

const hoursText = (hours: number | null): string => (hours === null ? '' : hours.toFixed(1));

/** The season of this name, however it is capitalised. */
export const named = (all: readonly SeasonView[], name: string): SeasonView | undefined =>
  all.find(season => season.name.toLowerCase() === name.trim().toLowerCase());

/** A season with its cars, in lines. */
export const seasonLines = (season: Shown): string[] => [
  `${season.name}, made on ${season.madeOn}${season.current ? ', current' : season.closedOn === null ? '' : `, closed on ${season.closedOn}`}`,
  ...expectedLines(season),
  '',
  ...table(
    ['Car', 'To', 'In', 'State', 'Hours', 'Taken', 'Expected', 'Brought'],
    season.cars.map(car => [
      car.number,
      spell(car.kind, plainLocale),
      car.colour ?? '',
      `${car.state}${car.mustBeIn ? ', required' : ''}`,
      hoursText(car.hours),
      hoursText(car.hoursTaken),
      car.expected ?? '',
      car.brought ?? '',
    ]),
    [4, 5, 6, 7],
  ),
];

const listLines = (list: Shown[]): string[] =>
  list.length === 0
    ? ['No season is saved yet: choose cars in Decide, or with "playworn season NAME".']
    : table(
        ['Season', 'Made', 'Cars', 'Finished', 'Expected', 'Brought', ''],
        list.map(season => [
          season.name,
          season.madeOn,
          String(season.cars.length),
          String(season.cars.filter(({ state }) => state === 'finished').length),
          season.expected === null ? '' : `${season.expected} ${season.currency}`,
          season.broughtByFinished === null ? '' : `${season.broughtByFinished} ${season.currency}`,
          season.current ? 'current' : season.closedOn === null ? '' : `closed ${season.closedOn}`,
        ]),
        [2, 3, 4, 5],
      );

interface SeasonAction {
  makeCurrent?: boolean;
  rename?: string;
  close?: boolean;
  remove?: boolean;
  toBench?: boolean;
}

/** Does what is asked with a season; null where it is there no longer. */
const act = async (api: Api, one: SeasonView, asked: SeasonAction): Promise<number | null> => {
  const { id, name } = one;
  if (Object.keys(asked).length > 1)
    throw new Refused('Give one of --make-current, --rename, --to-bench, --close and --remove.');
  if (asked.makeCurrent) {
    if (one.closedOn !== null) throw new Refused(`${name} was closed on ${one.closedOn}.`);
    await api.work.setCurrentSeason({ id });
  }
  if (asked.rename !== undefined) await api.work.saveSeason({ ...one, name: asked.rename });
  if (asked.close) {
    if (one.closedOn !== null) throw new Refused(`${name} was closed on ${one.closedOn} already.`);
    await api.work.closeSeason({ id, on: (await api.collection.summary()).today });
  }
  if (asked.toBench) {
    const cars = one.cars.filter(({ onBench, finishedOn }) => !onBench && finishedOn === null);
    if (cars.length === 0) throw new Refused(`No car of ${name} waits for the bench.`);
    await api.bench.add({ seasonId: id, cars: cars.map(({ carId, kind }) => ({ carId, kind })) });
  }
  if (asked.remove) await api.work.removeSeason({ id });
  return asked.remove ? null : id;
};

/**
 * `playworn seasons`: every season, or one with its cars, what was expected of them and what they brought; one can be
 * made current, renamed, put on the bench, closed or removed.
 */
export const seasons = (
  name: string | undefined,
  { collection, json, ...asked }: Common & SeasonAction,
): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    const all = await api.work.seasons();
    if (name === undefined) {
      if (Object.keys(asked).length > 0) throw new Refused('Say which season: playworn seasons NAME.');
      return print<Shown[]>(json, all.map(shown), listLines);
    }
    const one = named(all, name);
    if (!one)
      throw new Refused(
        `No season is called ${name}.${all.length > 0 ? ` There are: ${all.map(season => season.name).join(', ')}.` : ''}`,
      );
    const id = await act(api, one, asked);
    if (id === null)
      return print(json, { removed: one.name }, ({ removed }) => [
        `${removed} is removed; its cars and their jobs stay. Undo in the window brings it back.`,
      ]);
    const now = (await api.work.seasons()).find(season => season.id === id)!;
    print(json, shown(now), seasonLines);
  });
