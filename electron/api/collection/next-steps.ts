import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import type { NextStep } from '../../../valuation/wording/next-step-text.ts';
import type { CarFigures } from '../figures/figures.ts';
import type { HomeView } from '../views.ts';

interface Known {
  /** The cars that are not sold. */
  cars: { car: BriefCar; figures: CarFigures | undefined }[];
  saleRecords: number;
  castings: number;
  /** Its first steps are shown, and lead to the rest. */
  isYoung: boolean;
}

/** What the first steps of a young collection lead to. */
const leadsTo = new Set<NextStep['kind']>([
  'add-reference',
  'add-lot',
  'add-sale-records',
  'decide',
  'identify',
  'find-evidence',
]);

/**
 * What its owner would best do next, the most useful first; each with the number of cars and
 * the screen for it.
 */
export const nextSteps = ({ cars: all, saleRecords, castings, isYoung }: Known): HomeView['next'] => {
  const count = (test: (entry: Known['cars'][number]) => boolean) => all.filter(test).length;
  const steps: HomeView['next'] = [];
  const add = (kind: NextStep['kind'], number: number, to: string) => {
    if (number > 0 && !(isYoung && leadsTo.has(kind))) steps.push({ kind, count: number, to });
  };
  if (castings === 0) add('add-reference', 1, '/reference');
  if (all.length === 0) add('add-lot', 1, '/lots');
  if (saleRecords === 0 && castings > 0) add('add-sale-records', 1, '/sales');
  const pays = count(
    ({ car, figures }) =>
      car.isKept &&
      !car.isDecided &&
      (figures?.recommendation === 'restore' ||
        figures?.recommendation === 'conserve' ||
        figures?.recommendation === 'customise'),
  );
  const countCars = (test: (car: BriefCar) => boolean) => count(({ car }) => test(car));
  add('decide', pays, '/decide');
  add(
    'identify',
    countCars(car => car.castingId === null),
    '/cars?show=unidentified',
  );
  add(
    'choose-variation',
    countCars(car => car.castingId !== null && car.variationId === null),
    '/cars?show=open-variation',
  );
  add(
    'grade',
    countCars(car => car.grade === null),
    '/cars?show=ungraded',
  );
  add(
    'find-evidence',
    count(({ car, figures }) => car.castingId !== null && !figures?.worths.asFound),
    '/cars?show=no-worth',
  );
  add(
    'photograph',
    countCars(car => car.photos === 0),
    '/cars?show=no-photograph',
  );
  return steps;
};
