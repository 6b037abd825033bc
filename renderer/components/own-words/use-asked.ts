import { useState } from 'react';
import type { Meaning } from '../../../valuation/wording/own-word-text.ts';
import { type AskedWord, wordKey } from './ask-words.tsx';
import { mergedAsked } from './merge-asked.ts';
import { useSayMeaning, useVocabulary } from './use-own-words.ts';

/**
 * What is asked of texts that wait, for `AskWords`: each answer is saved at once, and what was answered stays
 * in its place, to be changed. `words` is another list only where what waits has changed.
 */
export const useAsked = <Word extends { column: string; text: string }>(
  words: readonly Word[],
  askedOf: (word: Word) => AskedWord,
) => {
  const [asked, setAsked] = useState<readonly AskedWord[]>([]);
  const [said, setSaid] = useState<ReadonlyMap<string, Meaning>>(new Map());
  const [seen, setSeen] = useState<readonly Word[] | null>(null);
  const vocabulary = useVocabulary();
  const say = useSayMeaning();
  if (seen !== words) {
    setSeen(words);
    setAsked(mergedAsked(asked, words.map(askedOf), said));
  }
  const waiting = new Set(words.map(wordKey));
  return {
    words: asked,
    answers: new Map([...said].filter(([key]) => !waiting.has(key))),
    vocabulary,
    onAnswer: (answer: Parameters<typeof say.mutate>[0][number]) => {
      setSaid(before => new Map(before).set(wordKey(answer), answer));
      say.mutate([answer]);
    },
  };
};
