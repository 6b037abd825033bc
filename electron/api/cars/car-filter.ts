import type { z } from 'zod';
import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import type { CarLack } from '../../../valuation/words.ts';
import { isOwned } from '../figures/owned.ts';
import type { carListFilter } from '../inputs.ts';
import { fold, hasWords } from './car-texts.ts';
import { adviceOf, type ListedCars, rarityOf, seriesOf, statusOf } from './listed-cars.ts';

export type CarListFilter = z.output<typeof carListFilter>;

/** The parts of a filter of which each choice says how many cars it would show. */
export const filterParts = [
  'lots',
  'series',
  'finish',
  'grade',
  'status',
  'recommendation',
  'rarity',
] as const;
export type FilterPart = (typeof filterParts)[number];

const inBand = (grade: number | null, band: string): boolean => {
  if (band === 'none' || grade === null) return band === 'none' && grade === null;
  const [from = 0, to = 10] = band.split('-').map(Number);
  return grade >= from && grade <= to;
};

/** What a car lacks, as Home counts it: of the owner's cars. */
const lacks: Record<CarLack, (car: BriefCar, list: ListedCars) => boolean> = {
  unidentified: car => car.castingId === null,
  'open-variation': car => car.castingId !== null && car.variationId === null,
  ungraded: car => car.grade === null,
  'no-worth': (car, { midOf }) => car.castingId !== null && midOf(car.id) === null,
  'not-understood': car => car.isUnread,
  'no-photograph': car => car.photos === 0,
};

const any = <Value>(values: readonly Value[], value: Value | null): boolean =>
  values.length === 0 || (value !== null && values.includes(value));

/** True where the filter is by figures, which all cars must have for it. */
export const needsFigures = ({ recommendation, show }: CarListFilter): boolean =>
  recommendation.length > 0 || show === 'no-worth';

/**
 * Tells which part of the filter keeps a car out: null where none does, 'more' where several do, or one that has
 * no choices to count.
 */
export const keptOutBy = (
  list: ListedCars,
  filter: CarListFilter,
): ((car: BriefCar) => FilterPart | 'more' | null) => {
  const { lots, series, finish, grade, status, recommendation, rarity, casting, variation, show } = filter;
  const words = fold(filter.text).split(/\s+/).filter(Boolean);
  const parts: Record<FilterPart, (car: BriefCar) => boolean> = {
    lots: car => any(lots, car.lotId),
    series: car => any(series, seriesOf(list, car)),
    finish: car => any(finish, car.finishState),
    grade: car => grade.length === 0 || grade.some(band => inBand(car.grade, band)),
    status: car => any(status, statusOf(list, car)),
    recommendation: car => any(recommendation, adviceOf(list, car)),
    rarity: car => any(rarity, rarityOf(list, car)),
  };
  // What is left open keeps nobody out.
  const asked = filterParts.filter(part => filter[part].length > 0);
  return car => {
    if (casting !== null && car.castingId !== casting) return 'more';
    if (variation !== null && car.variationId !== variation) return 'more';
    if (show !== null && (!isOwned(list.seen, car) || !lacks[show](car, list))) return 'more';
    if (words.length > 0) {
      const text = list.textOf(car.id);
      if (!text || !hasWords(text, words)) return 'more';
    }
    let out: FilterPart | null = null;
    for (const part of asked) {
      if (parts[part](car)) continue;
      if (out !== null) return 'more';
      out = part;
    }
    return out;
  };
};
