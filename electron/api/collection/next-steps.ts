import type { CarRecord } from '../../../db/records/cars.ts';
import type { CarFigures } from '../figures/figures.ts';
import type { HomeView } from '../views.ts';

interface Known {
  /** The cars that are not sold. */
  cars: { car: CarRecord; figures: CarFigures | undefined }[];
  photos: Map<number, unknown>;
  decided: Map<number, unknown>;
  saleRecords: number;
  castings: number;
}

const cars = (count: number, one: string, many: string) =>
  count === 1 ? `1 car ${one}` : `${count} cars ${many}`;

/** What its owner would best do next, the most useful first; each with the number of cars and the screen for it. */
export const nextSteps = ({ cars: all, photos, decided, saleRecords, castings }: Known): HomeView['next'] => {
  const count = (test: (entry: Known['cars'][number]) => boolean) => all.filter(test).length;
  const steps: HomeView['next'] = [];
  const add = (number: number, sentence: string, to: string) => {
    if (number > 0) steps.push({ sentence, to, count: number });
  };
  if (castings === 0) add(1, 'Bring in the reference: castings and their variations', '/reference');
  if (all.length === 0) add(1, 'Add a first lot', '/lots');
  if (saleRecords === 0 && castings > 0)
    add(1, 'Bring in sale records, so that cars can be valued', '/sales');

  const pays = count(
    ({ car, figures }) =>
      car.status === 'kept' &&
      !decided.has(car.id) &&
      (figures?.recommendation === 'restore' ||
        figures?.recommendation === 'conserve' ||
        figures?.recommendation === 'customise'),
  );
  add(
    pays,
    `${cars(pays, 'pays for work', 'pay for work')} and ${pays === 1 ? 'waits' : 'wait'} for your decision`,
    '/decide',
  );
  const unidentified = count(({ car }) => car.castingId === null);
  add(unidentified, cars(unidentified, 'is not identified', 'are not identified'), '/cars?show=unidentified');
  const open = count(({ car }) => car.castingId !== null && car.variationId === null);
  add(open, cars(open, 'has its variation open', 'have their variation open'), '/cars?show=open-variation');
  const ungraded = count(({ car }) => car.grade === null);
  add(ungraded, cars(ungraded, 'has no grade', 'have no grade'), '/cars?show=ungraded');
  const unvalued = count(({ car, figures }) => car.castingId !== null && !figures?.worths.asFound);
  add(unvalued, `${cars(unvalued, 'has', 'have')} not enough evidence for a worth`, '/cars?show=no-worth');
  const bare = count(({ car }) => !photos.has(car.id));
  add(bare, cars(bare, 'has no photograph', 'have no photograph'), '/cars?show=no-photograph');
  return steps;
};
