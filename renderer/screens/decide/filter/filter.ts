import {
  type DecidedWord,
  decidedWords,
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

/** Says several words as one would: "scarce or rare", "original, restored or stripped". */
export const orList = (words: readonly string[]): string => {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} or ${last}`;
};
