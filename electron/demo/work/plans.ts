import type { Transaction } from 'kysely';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { savePlan } from '../../../db/records/plans/plans.ts';
import type { Schema } from '../../../db/schema.ts';
import { defaultAssumptions, type PlanWishes, planFromCar } from '../../../valuation/index.ts';
import { storedPlan } from '../../api/cars/stored-plan.ts';
import type { DemoCar } from '../cars/cars.ts';
import type { DemoPlan } from '../content.ts';
import { randomFrom } from '../random.ts';

const planNotes = [
  'Wait for dry weather: the last wet coat bloomed.',
  'Try warm water and soap before anything stronger, the lacquer may lift by itself.',
  'Match the shade inside the door line before stripping, and photograph it.',
  'Straighten the axle channel first; if it cracks, this becomes a donor.',
  'Keep the old wheels with the car in a bag.',
];

/** What the owner wants otherwise than a plan from the car would have it: nothing but the grade to aim at. */
const wishesOf = (car: DemoCar, aim: number): PlanWishes => ({
  aim: car.now.grade <= 2.5 ? Math.min(aim, 8.5) : aim,
});

/**
 * Plans for rough cars that could be worth the work: those on the bench, and the best candidates of
 * the last two lots.
 */
export const makePlans = (cars: DemoCar[]): DemoPlan[] => {
  const random = randomFrom('plans of the demo');
  const candidates = cars.filter(
    car =>
      car.status === 'on the bench' ||
      (car.status === 'kept' &&
        car.identified === 'variation' &&
        car.now.grade <= 5 &&
        !car.restoredOn &&
        ['common', 'uncommon'].includes(car.variation.rarity)),
  );
  return [
    ...candidates.filter(car => car.status === 'on the bench'),
    ...random.shuffle(candidates.filter(car => car.status !== 'on the bench')).slice(0, 13),
  ]
    .toSorted((a, b) => a.id - b.id)
    .map(car => ({
      carId: car.id,
      wishes: wishesOf(car, random.pick([8.5, 9, 9, 9.5])),
      notes: random.pick(planNotes),
    }));
};

/** Saves plans as their owner would: made from each car, by the starting steps. To be called when cars and parts are written. */
export const savePlans = async (trx: Transaction<Schema>, plans: readonly DemoPlan[]): Promise<void> => {
  const wanted = new Map(plans.map(plan => [plan.carId, plan]));
  const cars = (await listCars(trx)).filter(({ id }) => wanted.has(id));
  const subjects = new Map((await readSubjects(trx, cars)).map(subject => [subject.id, subject]));
  for (const { carId, wishes, notes } of plans) {
    const plan = planFromCar(subjects.get(carId)!, defaultAssumptions('USD'), 'restore', wishes);
    await savePlan(trx, storedPlan(plan, { carId, notes, wishes, libraryVersion: 0 }));
  }
};
