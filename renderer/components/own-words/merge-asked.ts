import type { Meaning } from '../../../valuation/wording/own-word-text.ts';
import { type AskedWord, wordKey } from './ask-words.tsx';

/**
 * What is asked after an answer: those that were asked before in their places, then the new ones. What is no
 * longer asked stays only where it was answered here.
 */
export const mergedAsked = (
  before: readonly AskedWord[],
  now: readonly AskedWord[],
  answers: ReadonlyMap<string, Meaning>,
): AskedWord[] => {
  const current = new Map(now.map(word => [wordKey(word), word]));
  const kept = before.flatMap(word => {
    const key = wordKey(word);
    return current.get(key) ?? (answers.has(key) ? word : []);
  });
  const there = new Set(kept.map(wordKey));
  return [...kept, ...now.filter(word => !there.has(wordKey(word)))];
};
