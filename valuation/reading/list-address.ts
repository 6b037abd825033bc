import {
  type CarLack,
  carLacks,
  type DecidedWord,
  decidedWords,
  type FinishState,
  finishStates,
  type Grade,
  grades,
  isGrade,
  type ListedStatus,
  listedStatuses,
  type Rarity,
  type Recommendation,
  rarities,
  recommendations,
  type SaleShow,
  saleShows,
} from '../words.ts';

/** By which column a list is sorted. */
export interface ListSort {
  columnId: string;
  descending?: boolean;
}

/** Beside its filter, what a list's address says: the saved view that was chosen, the order, the columns. */
export interface ListLook {
  /** The name of the saved view that was chosen last, changed since or not. */
  saved: string | null;
  /** Absent: as the list begins. */
  sort: ListSort | null | undefined;
  /** Ids of the columns that are shown, in their order; null for all in the usual one. */
  columns: string[] | null;
}

export const lookNames = { saved: 'saved', sort: 'sort', columns: 'columns' } as const;

const sortIn = (text: string | null): ListSort | null | undefined => {
  if (text === null || text === '') return undefined;
  if (text === 'none') return null;
  return text.startsWith('-')
    ? { columnId: text.slice(1), descending: true }
    : { columnId: text, descending: false };
};

/** Reads order and columns from an address's query. */
export const lookIn = (search: string): ListLook => {
  const query = new URLSearchParams(search);
  const columns = query.get(lookNames.columns)?.split(',').filter(Boolean);
  return {
    saved: query.get(lookNames.saved) || null,
    sort: sortIn(query.get(lookNames.sort)),
    columns: columns && columns.length > 0 ? columns : null,
  };
};

/** Which cars their list shows; kept in the address. */
export interface CarFilter {
  lots: number[];
  series: string[];
  casting: number | null;
  variation: number | null;
  finish: FinishState[];
  grade: string[];
  status: ListedStatus[];
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
  return Number.isSafeInteger(id) && id > 0 ? id : null;
};

/** A grade as a link may give it: one of the bands, or any "from-to". */
const isGradeText = (text: string): boolean => text === 'none' || /^\d+(\.5)?-\d+(\.5)?$/.test(text);

/** Reads the filter of the list of cars from an address's query; what it does not know it leaves out. */
export const carFilterIn = (search: string): CarFilter => {
  const query = new URLSearchParams(search);
  const show = query.get('show');
  return {
    lots: listIn(query, 'lot').map(Number).filter(Number.isInteger),
    series: query.getAll('series').filter(Boolean),
    casting: idIn(query, 'casting'),
    variation: idIn(query, 'variation'),
    finish: among(finishStates, listIn(query, 'finish')),
    grade: listIn(query, 'grade').filter(isGradeText),
    status: among(listedStatuses, listIn(query, 'status')),
    recommendation: among(recommendations, listIn(query, 'recommendation')),
    rarity: among(rarities, listIn(query, 'rarity')),
    show: carLacks.find(lack => lack === show) ?? null,
    text: (query.get('text') ?? '').slice(0, 2000),
  };
};

/** Which records are shown; kept in the address. */
export interface SaleFilter {
  casting: number | null;
  variation: number | null;
  source: string;
  finish: string;
  show: SaleShow;
}

const numberIn = (text: string | null): number | null => (text && /^\d+$/.test(text) ? Number(text) : null);

/** Reads the filter of the list of sale records from an address's query. */
export const saleFilterIn = (query: string): SaleFilter => {
  const params = new URLSearchParams(query);
  return {
    casting: numberIn(params.get('casting')),
    variation: numberIn(params.get('variation')),
    source: params.get('source') ?? '',
    finish: params.get('finish') ?? '',
    show: saleShows.find(show => show === params.get('show')) ?? 'all',
  };
};

/** The filter as the service takes it; a finish that is none is none. */
export const servedSaleFilter = ({ casting, variation, source, finish, show }: SaleFilter) => ({
  castingId: casting,
  variationId: variation,
  source,
  finish: finishStates.find(state => state === finish) ?? null,
  show,
});

/**
 * Which of the cars that may be worked on are weighed, as the address of Decide keeps it. Empty lists and null
 * mean any.
 */
export interface DecideFilter {
  lot: number | null;
  finish: FinishState[];
  below: Grade | null;
  not: Rarity[];
  recommendation: Recommendation[];
  decided: DecidedWord | null;
}

/** Reads the filter of Decide from an address's query; what it does not know it leaves out. */
export const decideFilterIn = (search: string): DecideFilter => {
  const query = new URLSearchParams(search);
  const below = Number(query.get('below'));
  return {
    lot: idIn(query, 'lot'),
    finish: among(finishStates, listIn(query, 'finish')),
    below: isGrade(below) && below > (grades[0] ?? 1) ? below : null,
    not: among(rarities, listIn(query, 'not')),
    recommendation: among(recommendations, listIn(query, 'recommendation')),
    decided: decidedWords.find(word => word === query.get('decided')) ?? null,
  };
};
