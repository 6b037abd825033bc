import type { CarRow } from '../../../../electron/api/views.ts';
import {
  type CarStatus,
  carStatuses,
  type FinishState,
  finishStates,
  type Rarity,
  type Recommendation,
  rarities,
  recommendations,
} from '../../../../valuation/words.ts';

/** Grades in bands, as people speak of them; by the text that stands in the address. */
export const gradeBands = [
  { value: '9-10', label: 'C9 and better', from: 9, to: 10 },
  { value: '7-8.5', label: 'C7 to C8.5', from: 7, to: 8.5 },
  { value: '5-6.5', label: 'C5 to C6.5', from: 5, to: 6.5 },
  { value: '1-4.5', label: 'below C5', from: 1, to: 4.5 },
  { value: 'none', label: 'ungraded', from: null, to: null },
] as const;

/** What a car lacks, as Home counts it: of the cars that are still here. */
export const lacks = {
  unidentified: { label: 'not identified', is: (car: CarRow) => car.castingId === null },
  'open-variation': {
    label: 'no variation chosen',
    is: (car: CarRow) => car.castingId !== null && car.variationId === null,
  },
  ungraded: { label: 'without a grade', is: (car: CarRow) => car.grade === null },
  'no-worth': {
    label: 'without a value',
    is: (car: CarRow) => car.castingId !== null && car.worths.asFound === null,
  },
  'not-understood': { label: 'with something not understood', is: (car: CarRow) => car.unread.length > 0 },
  'no-photograph': { label: 'without a photograph', is: (car: CarRow) => car.photoCount === 0 },
} as const;
type Lack = keyof typeof lacks;

export interface CarFilter {
  lots: number[];
  series: string[];
  casting: number | null;
  variation: number | null;
  finish: FinishState[];
  grade: string[];
  status: CarStatus[];
  recommendation: Recommendation[];
  rarity: Rarity[];
  show: Lack | null;
  text: string;
}

const among = <Word extends string>(words: readonly Word[], texts: readonly string[]): Word[] =>
  words.filter(word => texts.includes(word));

const listIn = (query: URLSearchParams, name: string): string[] =>
  query.getAll(name).flatMap(text => text.split(',').filter(Boolean));

const idIn = (query: URLSearchParams, name: string): number | null => {
  const id = Number(query.get(name));
  return Number.isInteger(id) && id > 0 ? id : null;
};

/** A grade as a link may give it: one of the bands, or any "from-to". */
const isGradeText = (text: string): boolean => text === 'none' || /^\d+(\.5)?-\d+(\.5)?$/.test(text);

/** Reads the filter from an address's query; what it does not know it leaves out. */
export const filterIn = (search: string): CarFilter => {
  const query = new URLSearchParams(search);
  const show = query.get('show') ?? '';
  return {
    lots: listIn(query, 'lot').map(Number).filter(Number.isInteger),
    series: query.getAll('series').filter(Boolean),
    casting: idIn(query, 'casting'),
    variation: idIn(query, 'variation'),
    finish: among(finishStates, listIn(query, 'finish')),
    grade: listIn(query, 'grade').filter(isGradeText),
    status: among(carStatuses, listIn(query, 'status')),
    recommendation: among(recommendations, listIn(query, 'recommendation')),
    rarity: among(rarities, listIn(query, 'rarity')),
    show: Object.hasOwn(lacks, show) ? (show as Lack) : null,
    text: query.get('text') ?? '',
  };
};

/** The query that says a filter, without what is left open. */
export const queryOf = (filter: CarFilter): URLSearchParams => {
  const query = new URLSearchParams();
  const list = (name: string, values: readonly (string | number)[]) => {
    if (values.length > 0) query.set(name, values.join(','));
  };
  list('lot', filter.lots);
  for (const series of filter.series) query.append('series', series);
  if (filter.casting !== null) query.set('casting', String(filter.casting));
  if (filter.variation !== null) query.set('variation', String(filter.variation));
  list('finish', filter.finish);
  list('grade', filter.grade);
  list('status', filter.status);
  list('recommendation', filter.recommendation);
  list('rarity', filter.rarity);
  if (filter.show) query.set('show', filter.show);
  if (filter.text.trim()) query.set('text', filter.text);
  return query;
};

export const isOpen = (filter: CarFilter): boolean => queryOf(filter).toString() === '';

const inBand = (grade: number | null, band: string): boolean => {
  if (band === 'none' || grade === null) return band === 'none' && grade === null;
  const [from = 0, to = 10] = band.split('-').map(Number);
  return grade >= from && grade <= to;
};

const fold = (text: string): string => text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();

const texts = new WeakMap<CarRow, string>();
const textOf = (car: CarRow): string => {
  const known = texts.get(car);
  if (known !== undefined) return known;
  const text = fold(
    [
      car.inventoryNumber,
      car.releaseName,
      car.casting,
      car.series,
      car.variation,
      car.lot,
      car.location,
      car.notes,
      ...Object.values(car.features),
      ...Object.values(car.asWritten),
      ...car.unread.map(({ text }) => text),
      ...car.said,
    ].join('\n'),
  );
  texts.set(car, text);
  return text;
};

export type FilterPart = 'lots' | 'series' | 'finish' | 'grade' | 'status' | 'recommendation' | 'rarity';

const tests: Record<FilterPart, (car: CarRow, filter: CarFilter) => boolean> = {
  lots: (car, { lots }) => lots.length === 0 || (car.lotId !== null && lots.includes(car.lotId)),
  series: (car, { series }) => series.length === 0 || (car.series !== null && series.includes(car.series)),
  finish: (car, { finish }) => finish.length === 0 || finish.includes(car.finishState),
  grade: (car, { grade }) => grade.length === 0 || grade.some(band => inBand(car.grade, band)),
  status: (car, { status }) => status.length === 0 || status.includes(car.status),
  recommendation: (car, { recommendation }) =>
    recommendation.length === 0 ||
    (car.recommendation !== null && car.status !== 'sold' && recommendation.includes(car.recommendation)),
  rarity: (car, { rarity }) => rarity.length === 0 || (car.rarity !== null && rarity.includes(car.rarity)),
};

/**
 * The cars that a filter lets through; `except` leaves one part of it open, to count what each choice
 * of it would show.
 */
export const filterCars = (cars: readonly CarRow[], filter: CarFilter, except?: FilterPart): CarRow[] => {
  const words = fold(filter.text).split(/\s+/).filter(Boolean);
  const parts = (Object.keys(tests) as FilterPart[]).filter(part => part !== except);
  return cars.filter(
    car =>
      parts.every(part => tests[part](car, filter)) &&
      (filter.casting === null || car.castingId === filter.casting) &&
      (filter.variation === null || car.variationId === filter.variation) &&
      (filter.show === null || (car.status !== 'sold' && lacks[filter.show].is(car))) &&
      (words.length === 0 || words.every(word => textOf(car).includes(word))),
  );
};
