import type { CarChoices } from '../../../../electron/api/views.ts';
import {
  type CarLack,
  type CarStatus,
  carLacks,
  carStatuses,
  type FinishState,
  finishStates,
  type Grade,
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
export const lackLabels: Record<CarLack, string> = {
  unidentified: 'not identified',
  'open-variation': 'no variation chosen',
  ungraded: 'without a grade',
  'no-worth': 'without a value',
  'not-understood': 'with something not understood',
  'no-photograph': 'without a photograph',
};

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
  show: CarLack | null;
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
  const show = query.get('show');
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
    show: carLacks.find(lack => lack === show) ?? null,
    text: (query.get('text') ?? '').slice(0, 2000),
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

/** True for a grade within one of the bands. */
export const isInBand = (grade: Grade | null, { from, to }: (typeof gradeBands)[number]): boolean =>
  grade === null || from === null ? grade === from : grade >= from && grade <= to;

export type FilterPart = keyof CarChoices;
