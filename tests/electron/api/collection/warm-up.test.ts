import { expect, it } from 'vitest';
import { listCars } from '../../../../db/records/cars/cars.ts';
import { warmUp } from '../../../../electron/api/collection/warm-up.ts';
import { carFigures } from '../../../../electron/api/figures/figures.ts';
import { newCollectionService, newService } from '../../../helpers/api.ts';

const figuresAndHome = async (ahead: boolean) => {
  const { session, api } = await newCollectionService();
  await api.cars.create({
    lotId: null,
    cars: Array.from({ length: 12 }, (_, i) => ({ grade: 3 + (i % 5), location: `Shelf ${i}` })),
  });
  if (ahead) await warmUp(session);
  const cars = await listCars(session.collection!.read.db);
  const first = await carFigures(session, cars.slice(0, 6));
  const { summary: _, ...home } = await api.collection.home();
  return { first, whole: await carFigures(session, cars), home };
};

it('works out what Home then finds, and changes nothing of what Home says', async () => {
  const cold = await figuresAndHome(false);
  const warm = await figuresAndHome(true);
  expect(warm.whole.size).toBe(12);
  for (const [id, figures] of warm.first) expect(warm.whole.get(id)).toEqual(figures);
  expect([...warm.whole.values()]).toEqual([...cold.whole.values()]);
  expect(warm.home).toEqual(cold.home);
});

it('leaves a service without a collection alone', async () => {
  const { session } = newService();
  await expect(warmUp(session)).resolves.toBeUndefined();
});
