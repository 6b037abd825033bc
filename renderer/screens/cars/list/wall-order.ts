import type { CarRow } from '../../../../electron/api/views.ts';
import { carTitle } from '../car/car-names.ts';

export const wallOrders = {
  number: 'by number',
  name: 'by name',
  worth: 'highest value first',
  gain: 'highest gain first',
  grade: 'best grade first',
} as const;
export type WallOrder = keyof typeof wallOrders;

export const isWallOrder = (text: string | null): text is WallOrder =>
  text !== null && Object.hasOwn(wallOrders, text);

const figures: Record<'worth' | 'gain' | 'grade', (car: CarRow) => number | null> = {
  worth: car => (car.status === 'sold' ? null : (car.worths.asFound?.mid ?? null)),
  gain: car => (car.status === 'sold' ? null : car.expectedGain),
  grade: car => car.grade,
};

/** The cars as the wall hangs them; those without the figure come last, equal ones by number. */
export const orderWall = (cars: readonly CarRow[], order: WallOrder): CarRow[] => {
  const collator = new Intl.Collator(undefined, { numeric: true });
  const byNumber = (a: CarRow, b: CarRow) => collator.compare(a.inventoryNumber, b.inventoryNumber);
  if (order === 'number') return cars.toSorted(byNumber);
  if (order === 'name')
    return cars.toSorted((a, b) => collator.compare(carTitle(a), carTitle(b)) || byNumber(a, b));
  const figure = figures[order];
  const none = Number.NEGATIVE_INFINITY;
  return cars.toSorted((a, b) => {
    const difference = (figure(b) ?? none) - (figure(a) ?? none);
    return Number.isNaN(difference) || difference === 0 ? byNumber(a, b) : difference;
  });
};
