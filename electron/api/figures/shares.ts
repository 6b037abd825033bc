import type { Transaction } from 'kysely';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { clearShares, findLot, lotCosts, setShares } from '../../../db/records/lots/lots.ts';
import type { Schema } from '../../../db/schema.ts';
import { type FittedMarket, shareLot, valueCar, weighFixedShares } from '../../../valuation/index.ts';

import { refused } from '../session/errors.ts';

/**
 * Shares a lot's cost out over its cars by relative worth as found, to the minor unit; shares fixed by hand
 * stay, and the shares always sum to the cost. Called inside the action that changed the lot's costs, its
 * cars, or its shares; a later change of a grade or of the market leaves the books as they are. `strict`
 * refuses fixed shares that cannot stand; otherwise they are dropped and shared again. A lot without any cost
 * entered gives its cars none.
 */
export const reshareLot = async (
  trx: Transaction<Schema>,
  fitted: FittedMarket,
  lotId: number,
  { fix = [], strict = false }: { fix?: { carId: number; minor: number | null }[]; strict?: boolean } = {},
): Promise<void> => {
  const costs = (await lotCosts(trx, lotId)).get(lotId) ?? [];
  if (costs.length === 0 && fix.length === 0) {
    await clearShares(trx, lotId);
    return;
  }
  const cars = await listCars(trx, { lotId });
  if (cars.length === 0) return;
  const total = costs.reduce((sum, cost) => sum + cost.minor, 0);
  const asked = new Map(fix.map(({ carId, minor }) => [carId, minor]));
  const stranger = fix.find(({ carId }) => !cars.some(car => car.id === carId));
  if (stranger) throw refused(`Car ${stranger.carId} is not in this lot.`);
  let fixed = cars.map(car =>
    asked.has(car.id) ? (asked.get(car.id) ?? null) : car.costFixed ? car.cost : null,
  );
  // Where the lot's price is the sum of what is known of its cars, what the others cost stays unknown.
  const known = fixed.reduce<number>((sum, share) => sum + (share ?? 0), 0);
  const isOfCars = (await findLot(trx, lotId))?.priceFrom === 'cars';
  if (isOfCars && known > 0 && known === total) {
    await clearShares(trx, lotId);
    const own = cars.flatMap((car, i) =>
      fixed[i] == null ? [] : [{ carId: car.id, minor: fixed[i], fixed: true }],
    );
    await setShares(trx, own);
    return;
  }
  const { problem } = weighFixedShares(total, fixed);
  if (problem) {
    if (strict)
      throw refused(
        problem === 'too much'
          ? 'The shares fixed by hand come to more than the lot cost. Lower one, or let one be shared.'
          : 'Every share is fixed by hand, and together they do not come to what the lot cost. Let one be shared.',
      );
    fixed = cars.map(() => null);
  }
  const subjects = await readSubjects(trx, cars);
  const { shares } = shareLot({
    totalMinor: total,
    cars: subjects.map((subject, i) => {
      const share = fixed[i] ?? null;
      // What is fixed needs no weight.
      const weight = share === null ? (valueCar(fitted, subject).asFound?.mid ?? null) : null;
      return { id: subject.id, weight, fixed: share };
    }),
  });
  await setShares(
    trx,
    shares.map(({ id, minor, fixed: stays }) => ({ carId: id, minor, fixed: stays })),
  );
};
