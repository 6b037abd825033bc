import { minorToDecimal } from '../../../valuation/money.ts';
import type { Minor } from '../../../valuation/types.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import type { SeasonView } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { print, Refused, table } from '../terminal.ts';

interface Common {
  collection: string;
  json?: boolean;
}

const sum = (amounts: (Minor | null)[]): Minor | null => {
  const known = amounts.filter(one => one !== null);
  return known.length > 0 ? known.reduce((all, one) => all + one, 0) : null;
};

const shown = (season: SeasonView) => {
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

/** `playworn seasons`: every season with its cars, what was expected of them and what they brought. */
export const seasons = (name: string | undefined, { collection, json }: Common): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    const all = (await api.work.seasons()).map(shown);
    if (name === undefined)
      return print<Shown[]>(json, all, list =>
        list.length === 0
          ? ['No season is saved yet: choose cars in Decide.']
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
            ),
      );
    const one = all.find(season => season.name.toLowerCase() === name.toLowerCase());
    if (!one)
      throw new Refused(
        `No season is called ${name}.${all.length > 0 ? ` There are: ${all.map(season => season.name).join(', ')}.` : ''}`,
      );
    print(json, one, season => [
      `${season.name}, made on ${season.madeOn}${season.current ? ', current' : ''}`,
      ...expectedLines(season),
      '',
      ...table(
        ['Car', 'To', 'In', 'State', 'Hours', 'Taken', 'Expected', 'Brought'],
        season.cars.map(car => [
          car.number,
          spell(car.kind, plainLocale),
          car.colour ?? '',
          car.state,
          hoursText(car.hours),
          hoursText(car.hoursTaken),
          car.expected ?? '',
          car.brought ?? '',
        ]),
        [4, 5, 6, 7],
      ),
    ]);
  });
