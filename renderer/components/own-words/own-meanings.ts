import { useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import { plainWord } from '../../../valuation/reading/words.ts';
import { api } from '../../api/client.ts';

interface OwnWord {
  text: string;
  field: string;
  meaning: string;
}

/**
 * For a field, what a typed text stands for; null where its owner has not said, or has said different things
 * in different columns.
 */
export type OwnMeanings = (field: string) => (text: string) => string | null;

export const ownMeanings = (words: readonly OwnWord[]): OwnMeanings => {
  const byField = new Map<string, Map<string, string | null>>();
  for (const { text, field, meaning } of words) {
    if (text === '*' || meaning === '') continue;
    const texts = byField.get(field) ?? new Map<string, string | null>();
    byField.set(field, texts);
    const key = plainWord(text);
    const before = texts.get(key);
    texts.set(key, before === undefined || before === meaning ? meaning : null);
  }
  return field => text => byField.get(field)?.get(plainWord(text)) ?? null;
};

/** The owner's words, as the grids read what is typed into them. */
export const useOwnMeanings = (): OwnMeanings => {
  const { data } = useQuery({ queryKey: ['words'], queryFn: () => api.words.list() });
  return useMemo(() => ownMeanings(data?.words ?? []), [data]);
};
