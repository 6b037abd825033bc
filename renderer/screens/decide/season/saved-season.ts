import type { DecisionSummary, SeasonView } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import type { WorkKind } from '../../../../valuation/words.ts';
import type { api } from '../../../api/client.ts';
import { type Begun, isIn, type Season, type Standing } from './season.ts';

type SeasonInput = Parameters<typeof api.work.saveSeason>[0];

/** A season as the screen works with it, from the one that the collection has; amounts of another currency than `currency` are left out. */
export const seasonFrom = (saved: SeasonView, currency: Currency): Season => {
  const amount = (minor: number | null) => (saved.currency === currency ? minor : null);
  const standings = new Map<number, Standing>();
  const begun = new Map<number, Begun>();
  for (const car of saved.cars) {
    standings.set(car.carId, car.standing);
    if (car.onBench || car.finishedOn !== null)
      begun.set(car.carId, {
        hours: car.hours ?? 0,
        cash: amount(car.cost) ?? 0,
        gain: amount(car.expected) ?? 0,
      });
  }
  for (const carId of saved.excluded) standings.set(carId, 'never');
  const { hours, cash, parts, perCasting } = saved;
  return { standings, hours, cash: amount(cash), parts, perCasting, begun };
};

/**
 * What is saved of a season: its limits, and its cars in their order with what is expected of each. Of a car that was begun, or that can no
 * longer be weighed, what was saved stays.
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
    if (kept && (season.begun.has(carId) || !weighed?.plan)) {
      const { kind, expected, cost, hours, found, after } = kept;
      return [{ carId, standing, kind, expected, cost, hours, found, after }];
    }
    if (!weighed?.plan) return [];
    return [
      {
        carId,
        standing,
        kind: workKindOf(weighed),
        expected: weighed.plan.expectedGain,
        cost: weighed.cash,
        hours: weighed.hours,
        found: weighed.car.worths.asFound?.mid ?? null,
        after: weighed.car.worths.restored?.mid ?? null,
      },
    ];
  });
  return {
    ...about,
    current: true,
    hours: season.hours,
    cash: season.cash,
    perCasting: season.perCasting,
    parts: season.parts,
    expected: chosen.reduce((sum, { expected }) => sum + (expected ?? 0), 0),
    cars: chosen,
    excluded: [...season.standings].flatMap(([id, standing]) => (isIn(standing) ? [] : [id])),
  };
};

/** What its plan does to a car. */
export const workKindOf = ({ plan }: DecisionSummary): WorkKind =>
  plan && plan.option !== 'leave' ? plan.option : 'restore';

/** A name that no season has yet: "Season 2026", then "Season 2026, 2". */
export const nextName = (taken: readonly string[], year: string): string => {
  const names = new Set(taken.map(name => name.toLowerCase()));
  const plain = `Season ${year}`;
  for (let count = 1; ; count++) {
    const name = count === 1 ? plain : `${plain}, ${count}`;
    if (!names.has(name.toLowerCase())) return name;
  }
};
