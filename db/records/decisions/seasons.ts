import type { Kysely, Transaction } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import type { SeasonStanding, WorkKind } from '../../../valuation/words.ts';
import { readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** A car that was chosen for a season, and what was expected of it then, in the season's currency. */
export interface SeasonCar {
  carId: number;
  kind: WorkKind;
  standing: SeasonStanding;
  /**
   * Expected gain over leaving it, expected cost, value as found and afterwards; null where
   * they were not known.
   */
  expected: Minor | null;
  cost: Minor | null;
  hours: number | null;
  found: Minor | null;
  after: Minor | null;
  /** The colour that was proposed for it; empty where none was. */
  colour: string;
}

/** A choice of cars to work on, with its limits. */
export interface Season {
  id: number;
  name: string;
  madeOn: IsoDate;
  closedOn: IsoDate | null;
  /** The one that new work belongs to; at most one is. */
  current: boolean;
  hours: number | null;
  cash: Minor | null;
  currency: Currency;
  perCasting: number | null;
  /** For how many cars there is room. */
  mostCars: number | null;
  /** Limits of parts that differ from what is on the shelf; null for none. */
  parts: Record<string, number | null>;
  /** What its cars together were expected to gain, and the 80 % range of that. */
  expected: Minor | null;
  expectedLow: Minor | null;
  expectedHigh: Minor | null;
  notes: string;
  /** In the order in which to take them. */
  cars: SeasonCar[];
  /** The cars that are not to be chosen for it. */
  excluded: number[];
}

const minutes = (hours: number | null) => (hours === null ? null : Math.round(hours * 60));
const hours = (minute: number | null) => (minute === null ? null : minute / 60);

const readParts = (json: string): Record<string, number | null> => {
  const value = readJson(json);
  return typeof value === 'object' && value !== null
    ? Object.fromEntries(
        Object.entries(value).filter(
          (one): one is [string, number | null] => one[1] === null || Number.isInteger(one[1]),
        ),
      )
    : {};
};

/** All seasons, the newest first. */
export const listSeasons = async (db: Kysely<Schema>): Promise<Season[]> => {
  const rows = await db
    .selectFrom('season')
    .selectAll()
    .orderBy('made_on', 'desc')
    .orderBy('id', 'desc')
    .execute();
  const cars = await db.selectFrom('season_car').selectAll().orderBy('position').orderBy('id').execute();
  const ofSeason = Map.groupBy(cars, car => car.season_id);
  const excluded = Map.groupBy(
    await db.selectFrom('season_excluded').selectAll().orderBy('id').execute(),
    one => one.season_id,
  );
  return rows.map(row => ({
    id: row.id,
    name: row.name,
    madeOn: row.made_on,
    closedOn: row.closed_on,
    current: row.current === 1,
    hours: hours(row.minutes),
    cash: row.cash_minor,
    currency: row.currency,
    perCasting: row.per_casting,
    mostCars: row.most_cars,
    parts: readParts(row.parts),
    expected: row.expected_minor,
    expectedLow: row.expected_low_minor,
    expectedHigh: row.expected_high_minor,
    notes: row.notes,
    cars: (ofSeason.get(row.id) ?? []).map(car => ({
      carId: car.car_id,
      kind: car.kind,
      standing: car.standing,
      expected: car.expected_minor,
      cost: car.cost_minor,
      hours: hours(car.minutes),
      found: car.found_minor,
      after: car.after_minor,
      colour: car.colour,
    })),
    excluded: (excluded.get(row.id) ?? []).map(one => one.car_id),
  }));
};

/** How cars stand in the season that new work belongs to, by their ids. */
export const currentStandings = async (
  db: Kysely<Schema>,
): Promise<Map<number, SeasonStanding | 'never'>> => {
  const current = db.selectFrom('season').select('id').where('current', '=', 1);
  const cars = await db
    .selectFrom('season_car')
    .select(['car_id', 'standing'])
    .where('season_id', 'in', current)
    .execute();
  const excluded = await db
    .selectFrom('season_excluded')
    .select('car_id')
    .where('season_id', 'in', current)
    .execute();
  return new Map<number, SeasonStanding | 'never'>([
    ...cars.map(car => [car.car_id, car.standing] as const),
    ...excluded.map(car => [car.car_id, 'never'] as const),
  ]);
};

/** Makes one season the current one, or none. */
export const setCurrentSeason = async (trx: Transaction<Schema>, id: number | null): Promise<void> => {
  await trx.updateTable('season').set({ current: 0 }).where('current', '=', 1).execute();
  if (id !== null) await trx.updateTable('season').set({ current: 1 }).where('id', '=', id).execute();
};

/**
 * Saves a season and its cars: a new one, made on `on`, or in place of the one of this id. Returns its id.
 */
export const saveSeason = async (
  trx: Transaction<Schema>,
  season: Omit<Season, 'id' | 'madeOn' | 'closedOn'> & { id: number | null },
  on: IsoDate,
): Promise<number> => {
  const values = {
    name: season.name,
    minutes: minutes(season.hours),
    cash_minor: season.cash,
    currency: season.currency,
    per_casting: season.perCasting,
    most_cars: season.mostCars,
    parts: JSON.stringify(season.parts),
    expected_minor: season.expected,
    expected_low_minor: season.expectedLow,
    expected_high_minor: season.expectedHigh,
    notes: season.notes,
  };
  let { id } = season;
  if (id === null) {
    const made = await trx
      .insertInto('season')
      .values({ made_on: on, ...values })
      .returning('id')
      .executeTakeFirstOrThrow();
    id = made.id;
  } else {
    await trx.updateTable('season').set(values).where('id', '=', id).executeTakeFirstOrThrow();
    await trx.deleteFrom('season_car').where('season_id', '=', id).execute();
    await trx.deleteFrom('season_excluded').where('season_id', '=', id).execute();
  }
  for (const [position, car] of season.cars.entries())
    await trx
      .insertInto('season_car')
      .values({
        season_id: id,
        car_id: car.carId,
        position,
        kind: car.kind,
        standing: car.standing,
        expected_minor: car.expected,
        cost_minor: car.cost,
        minutes: minutes(car.hours),
        found_minor: car.found,
        after_minor: car.after,
        colour: car.colour,
      })
      .execute();
  for (const carId of season.excluded)
    await trx.insertInto('season_excluded').values({ season_id: id, car_id: carId }).execute();
  if (season.current) await setCurrentSeason(trx, id);
  return id;
};

/** Closes a season on a day; it is no longer the current one. */
export const closeSeason = async (trx: Transaction<Schema>, id: number, on: IsoDate): Promise<void> => {
  await trx.updateTable('season').set({ closed_on: on, current: 0 }).where('id', '=', id).execute();
};

/** Removes a season; its cars stay. */
export const removeSeason = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.deleteFrom('season').where('id', '=', id).execute();
};
