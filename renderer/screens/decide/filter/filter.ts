import type { DecisionSummary } from '../../../../electron/api/views.ts';
import {
  type FinishState,
  finishStates,
  type Grade,
  grades,
  isGrade,
  type Rarity,
  type Recommendation,
  rarities,
  recommendations,
} from '../../../../valuation/words.ts';

export type DecidedWord = 'undecided' | 'decided' | 'otherwise';

/**
 * Which cars are weighed, as the sentence says it and the address keeps it. Empty lists and null mean any.
 */
export interface Filter {
  lot: number | null;
  finish: FinishState[];
  below: Grade | null;
  not: Rarity[];
  recommendation: Recommendation[];
  decided: DecidedWord | null;
}

export const everything: Filter = {
  lot: null,
  finish: [],
  below: null,
  not: [],
  recommendation: [],
  decided: null,
};

const decidedWords: readonly DecidedWord[] = ['undecided', 'decided', 'otherwise'];

const wordsIn = <Word extends string>(text: string | null, words: readonly Word[]): Word[] => {
  const asked = new Set((text ?? '').split(','));
  return words.filter(word => asked.has(word));
};

/** Reads a filter from the address; what it does not know it leaves out. */
export const readFilter = (query: string): Filter => {
  const params = new URLSearchParams(query);
  const lot = Number(params.get('lot'));
  const below = Number(params.get('below'));
  return {
    lot: Number.isSafeInteger(lot) && lot > 0 ? lot : null,
    finish: wordsIn(params.get('finish'), finishStates),
    below: isGrade(below) && below > (grades[0] ?? 1) ? below : null,
    not: wordsIn(params.get('not'), rarities),
    recommendation: wordsIn(params.get('recommendation'), recommendations),
    decided: decidedWords.find(word => word === params.get('decided')) ?? null,
  };
};

/** Writes a filter for the address: only what narrows, so that everything is an empty text. */
export const writeFilter = ({ lot, finish, below, not, recommendation, decided }: Filter): string => {
  const parts: [string, string][] = [];
  if (lot !== null) parts.push(['lot', String(lot)]);
  if (finish.length > 0) parts.push(['finish', finish.join(',')]);
  if (below !== null) parts.push(['below', String(below)]);
  if (not.length > 0) parts.push(['not', not.join(',')]);
  if (recommendation.length > 0) parts.push(['recommendation', recommendation.join(',')]);
  if (decided !== null) parts.push(['decided', decided]);
  return parts.map(([key, value]) => `${key}=${encodeURIComponent(value).replaceAll('%2C', ',')}`).join('&');
};

const passesDecided = ({ car }: DecisionSummary, word: DecidedWord | null): boolean => {
  switch (word) {
    case null:
      return true;
    case 'undecided':
      return car.decided === null;
    case 'decided':
      return car.decided !== null;
    case 'otherwise':
      return car.decided !== null && car.decided !== car.recommendation;
  }
};

/** True for a car that the sentence speaks of. An ungraded car may be below any grade. */
export const passes = (filter: Filter, weighed: DecisionSummary): boolean => {
  const { car } = weighed;
  return (
    (filter.lot === null || car.lotId === filter.lot) &&
    (filter.finish.length === 0 || filter.finish.includes(car.finishState)) &&
    (filter.below === null || car.grade === null || car.grade < filter.below) &&
    (car.rarity === null || !filter.not.includes(car.rarity)) &&
    (filter.recommendation.length === 0 ||
      (car.recommendation !== null && filter.recommendation.includes(car.recommendation))) &&
    passesDecided(weighed, filter.decided)
  );
};

/** Says several words as one would: "scarce or rare", "original, restored or stripped". */
export const orList = (words: readonly string[]): string => {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} or ${last}`;
};
