import type { CarChoices } from '../../../../electron/api/views.ts';
import type { CarFilter } from '../../../../valuation/reading/list-address.ts';
import type { CarLack, Grade } from '../../../../valuation/words.ts';

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
