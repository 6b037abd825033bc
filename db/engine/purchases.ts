import type { Kysely } from 'kysely';
import type { IsoDate, Purchase, PurchasedCar } from '../../valuation/types.ts';
import type { FinishState, Grade, PartName } from '../../valuation/words.ts';
import { gradeToHalf, halfToGrade, inChunks } from '../codec.ts';
import { lotCosts } from '../records/lots/lots.ts';
import { hasOpenFinish, readUnread } from '../records/unread.ts';
import type { Schema } from '../schema.ts';

/** The tables of what a lot is and cost, by which purchases change beside the cars that are in it. */
export const tablesOfLots = ['lot', 'lot_cost'];

/** A check this near to the purchase says how a car was bought. */
const soonDays = 60;
const daysBetween = (one: IsoDate, other: IsoDate) =>
  Math.abs(Date.parse(one) - Date.parse(other)) / 86_400_000;
/** A finish that somebody gave the car: the owner may have done it since. */
const madeStates: readonly FinishState[] = ['restored', 'customised', 'stripped'];

interface FirstCheck {
  id: number;
  checkedOn: IsoDate;
  grade: Grade | null;
  missing: PartName[];
  reproductions: PartName[];
}

/** The first check of each car that is in a lot, by car id; of all lots, or of these. */
const firstChecks = async (db: Kysely<Schema>, lotIds?: number[]): Promise<Map<number, FirstCheck>> => {
  let query = db
    .selectFrom('condition_check')
    .select(['id', 'car_id', 'checked_on', 'grade_half'])
    .orderBy('checked_on')
    .orderBy('id');
  if (lotIds)
    query = query.where('car_id', 'in', car =>
      car.selectFrom('car').select('car.id').where('car.lot_id', 'in', lotIds),
    );
  const checks = await query.execute();
  const first = new Map<number, FirstCheck>();
  for (const { id, car_id, checked_on, grade_half } of checks)
    if (!first.has(car_id))
      first.set(car_id, {
        id,
        checkedOn: checked_on,
        grade: halfToGrade(grade_half),
        missing: [],
        reproductions: [],
      });
  const byId = new Map([...first.values()].map(check => [check.id, check]));
  let partQuery = db
    .selectFrom('part_grade')
    .select(['check_id', 'part', 'originality'])
    .where('originality', 'in', ['missing', 'reproduction'])
    .orderBy('id');
  if (lotIds)
    partQuery = partQuery.where('check_id', 'in', check =>
      check
        .selectFrom('condition_check')
        .innerJoin('car', 'car.id', 'condition_check.car_id')
        .select('condition_check.id')
        .where('car.lot_id', 'in', lotIds),
    );
  const parts = await partQuery.execute();
  for (const { check_id, part, originality } of parts) {
    const check = byId.get(check_id);
    if (check) (originality === 'missing' ? check.missing : check.reproductions).push(part);
  }
  return first;
};

const carsOfLots = (db: Kysely<Schema>, lotIds?: number[]) => {
  const query = db
    .selectFrom('car')
    .select([
      'id',
      'lot_id',
      'casting_id',
      'variation_id',
      'grade_half',
      'finish_state',
      'cost_minor',
      'cost_fixed',
      'bought_on',
      'purchase_left_out',
      'unread',
    ])
    .where('lot_id', 'is not', null)
    .orderBy('id');
  return (lotIds ? query.where('lot_id', 'in', lotIds) : query).execute();
};

type CarOfLot = Awaited<ReturnType<typeof carsOfLots>>[number];

/** A car as it was bought: as its first check found it; what that leaves open, as it is now. */
const asBought = (car: CarOfLot, boughtOn: IsoDate, check: FirstCheck | undefined): PurchasedCar => {
  const seenSoon =
    check !== undefined &&
    daysBetween(check.checkedOn, boughtOn) <= soonDays &&
    gradeToHalf(check.grade) === car.grade_half;
  return {
    id: car.id,
    castingId: car.casting_id,
    variationId: car.variation_id,
    grade: check?.grade ?? halfToGrade(car.grade_half),
    finishState: car.finish_state,
    missingParts: check?.missing ?? [],
    reproductionParts: check?.reproductions ?? [],
    ...(madeStates.includes(car.finish_state) && !seenSoon && { changedSince: true }),
    ...(hasOpenFinish(readUnread(car.unread)) && { hasOpenFinish: true }),
  };
};

/**
 * What the owner paid, as the engine takes it: every lot with a day, a cost and cars, at all its costs. A
 * car in a lot that has a day of its own and a fixed share was bought singly, at that share; the lot is then
 * what is left of it. Of all lots, or of these few.
 */
export const readPurchases = async (db: Kysely<Schema>, lotIds?: number[]): Promise<Purchase[]> => {
  const query = db
    .selectFrom('lot')
    .select(['id', 'bought_on', 'currency', 'purchase_left_out'])
    .orderBy('id');
  const lots = await (lotIds ? query.where('id', 'in', lotIds) : query).execute();
  const costs = await lotCosts(db);
  const cars = Map.groupBy(await carsOfLots(db, lotIds), ({ lot_id }) => lot_id);
  const checks = await firstChecks(db, lotIds);
  return lots.flatMap(({ id: lotId, bought_on: lotDay, currency, purchase_left_out }): Purchase[] => {
    const paid = costs.get(lotId) ?? [];
    const sum = (kinds?: string[]) =>
      paid.reduce((total, { kind, minor }) => total + (!kinds || kinds.includes(kind) ? minor : 0), 0);
    const ofLot = cars.get(lotId) ?? [];
    const singly = ofLot.filter(
      ({ bought_on, cost_fixed, cost_minor }) =>
        bought_on !== null && cost_fixed === 1 && cost_minor !== null && cost_minor > 0,
    );
    const alone = new Set(singly);
    const together = ofLot.filter(car => !alone.has(car));
    const left = sum() - singly.reduce((total, { cost_minor }) => total + (cost_minor ?? 0), 0);
    const purchases = singly.map(
      (car): Purchase => ({
        lotId,
        boughtOn: car.bought_on!,
        currency,
        total: car.cost_minor!,
        price: null,
        isAlone: true,
        ...(car.purchase_left_out === 1 && { leftOut: true }),
        cars: [asBought(car, car.bought_on!, checks.get(car.id))],
      }),
    );
    if (lotDay !== null && left > 0 && together.length > 0)
      purchases.push({
        lotId,
        boughtOn: lotDay,
        currency,
        total: left,
        price: singly.length === 0 ? sum(['price']) : null,
        ...(purchase_left_out === 1 && { leftOut: true }),
        cars: together.map(car => asBought(car, lotDay, checks.get(car.id))),
      });
    return purchases;
  });
};

/** The lots in which these cars are. */
export const lotsOfCars = async (db: Kysely<Schema>, carIds: number[]): Promise<number[]> => {
  const rows = await inChunks(carIds, ids =>
    db
      .selectFrom('car')
      .select('lot_id')
      .distinct()
      .where('lot_id', 'is not', null)
      .where('id', 'in', ids ?? carIds)
      .execute(),
  );
  return [...new Set(rows.flatMap(row => row.lot_id ?? []))];
};
