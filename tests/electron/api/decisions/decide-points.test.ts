import { expect, it } from 'vitest';
import type { BriefCar } from '../../../../db/records/cars/brief-cars.ts';
import type { DecideCars } from '../../../../electron/api/decisions/decide-cars.ts';
import { decidePoints, mostPoints } from '../../../../electron/api/decisions/decide-points.ts';
import type { CarFigures } from '../../../../electron/api/figures/car-figures.ts';
import { weighed } from '../../../helpers/decide/weighed-car.ts';

const many = 20_000;

/** Cars in a cloud, every third to be restored, and one far from all. */
const cloud = () => {
  const cars = Array.from({ length: many }, (_, i) => ({ id: i + 1, isSold: false }) as BriefCar);
  const figures = new Map(
    cars.map(({ id }) => {
      const isFar = id === many;
      const { shown, ...rest } = weighed(id);
      return [
        id,
        {
          recommendation: id % 3 === 0 ? 'restore' : 'leave',
          weighed: {
            ...rest,
            shown:
              id % 1000 === 1
                ? null
                : {
                    ...shown!,
                    expectedGain: isFar ? 9_000_000 : ((id * 7919) % 60_000) - 20_000,
                    probability: isFar ? 1 : ((id * 104_729) % 1000) / 1000,
                  },
          },
        },
      ] as const;
    }),
  );
  const column = <Part>(choose: (one: CarFigures) => Part) => {
    return (id: number) => choose(figures.get(id) as unknown as CarFigures);
  };
  const recommendationOf = column(({ recommendation }) => recommendation);
  const list = { cars, figures: { column }, recommendationOf } as unknown as DecideCars;
  return { cars, list };
};

it('has marks stand for those close about them where there are too many cars, and says for how many', () => {
  const { cars, list } = cloud();
  const also = new Set([5, 6, 7, 3000]);
  const points = decidePoints(list, cars, also, 'USD');
  const count = points.ids.length;
  expect(count).toBeLessThanOrEqual(mostPoints + also.size);
  expect(count).toBeGreaterThan(mostPoints / 3);
  expect(new Set(points.ids).size).toBe(count);
  // Each car is one mark or counted in one.
  expect(points.cars.reduce((sum, one) => sum + one, 0)).toBe(points.weighed);
  expect(points).toMatchObject({ weighed: many - 20, lacking: 20 });
  // Who stands alone, or is asked for, is there alone.
  for (const id of [...also, many]) expect(points.cars[points.ids.indexOf(id)], String(id)).toBe(1);
  const counted = (mark: number) =>
    points.cars.reduce((sum, one, i) => sum + (points.recommendations[i] === mark ? one : 0), 0);
  const restored = cars.filter(({ id }) => id % 3 === 0 && id % 1000 !== 1).length;
  expect([0, 2].map(counted)).toEqual([many - 20 - restored, restored]);
  const few = decidePoints(list, cars.slice(0, mostPoints), new Set(), 'USD');
  expect(few.ids).toHaveLength(mostPoints - 2);
  expect(new Set(few.cars)).toEqual(new Set([1]));
});
