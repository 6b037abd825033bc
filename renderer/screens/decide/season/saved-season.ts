import type { DecisionSummary, SeasonView } from '../../../../electron/api/views.ts';
import { valueAfter } from '../../../../valuation/choice/season-offer.ts';
import type { Currency } from '../../../../valuation/types.ts';
import type { WorkKind } from '../../../../valuation/words.ts';
import type { api } from '../../../api/client.ts';
import { type Begun, isIn, offerOf, type Season, type Standing } from './season.ts';

type SeasonInput = Parameters<typeof api.work.saveSeason>[0];

/**
 * A season as the screen works with it, from the one that the collection has; amounts of another currency
 * than `currency` are left out.
 */
export const seasonFrom = (saved: SeasonView, currency: Currency): Season => {
  const amount = (minor: number | null) => (saved.currency === currency ? minor : null);
  const standings = new Map<number, Standing>();
  const options = new Map<number, WorkKind>();
  const colours = new Map<number, string>();
  const begun = new Map<number, Begun>();
  for (const car of saved.cars) {
    standings.set(car.carId, car.standing);
    options.set(car.carId, car.kind);
    if (car.colour !== '') colours.set(car.carId, car.colour);
    if (car.onBench || car.finishedOn !== null)
      begun.set(car.carId, {
        hours: car.hours ?? 0,
        cash: amount(car.cost) ?? 0,
        gain: amount(car.expected) ?? 0,
      });
  }
  for (const carId of saved.excluded) standings.set(carId, 'never');
  const { hours, cash, parts, perCasting, mostCars } = saved;
  return { standings, options, colours, hours, cash: amount(cash), parts, perCasting, mostCars, begun };
};

/**
 * What is saved of a season: its limits, and its cars in their order with what is expected of each. Of a car
 * that was begun, or that can no longer be weighed, what was saved stays.
 */
export const seasonInput = (
  season: Season,
  about: { id: number | null; name: string; notes: string; currency: Currency },
  saved: SeasonView | null,
  cars: ReadonlyMap<number, DecisionSummary>,
): SeasonInput => {
  const before = new Map(saved?.cars.map(car => [car.carId, car]));
  const chosen = [...season.standings].flatMap(([carId, standing]): NonNullable<SeasonInput['cars']> => {
    if (standing === 'never') return [];
    const weighed = cars.get(carId);
    const kept = before.get(carId);
    const offer = weighed ? offerOf(season, weighed) : null;
    const colour = season.colours.get(carId) ?? '';
    if (kept && (season.begun.has(carId) || !offer)) {
      const { kind, hours } = kept;
      // What was expected in another currency is nothing in this one.
      const { expected, cost, found, after } = saved?.currency === about.currency ? kept : unknown;
      return [{ carId, standing, kind, expected, cost, hours, found, after, colour: kept.colour }];
    }
    if (!weighed || !offer) return [];
    const { option, gain, cash, hours } = offer;
    return [
      {
        carId,
        standing,
        kind: option,
        expected: gain,
        cost: cash,
        hours,
        found: weighed.car.worths.asFound?.mid ?? null,
        after: valueAfter({ ...weighed.car, planned: weighed.plan?.option ?? null }, option),
        colour,
      },
    ];
  });
  return {
    ...about,
    current: true,
    hours: season.hours,
    cash: season.cash,
    perCasting: season.perCasting,
    mostCars: season.mostCars,
    parts: season.parts,
    expected: chosen.reduce((sum, { expected }) => sum + (expected ?? 0), 0),
    cars: chosen,
    excluded: [...season.standings].flatMap(([id, standing]) => (isIn(standing) ? [] : [id])),
  };
};

const unknown = { expected: null, cost: null, found: null, after: null };

/** A name that no season has yet: "Season 2026", then "Season 2026, 2". */
export const nextName = (taken: readonly string[], year: string): string => {
  const names = new Set(taken.map(name => name.toLowerCase()));
  const plain = `Season ${year}`;
  for (let count = 1; ; count++) {
    const name = count === 1 ? plain : `${plain}, ${count}`;
    if (!names.has(name.toLowerCase())) return name;
  }
};
