import { useQuery } from '@tanstack/react-query';
import type { SettledWords } from '../../../electron/api/views.ts';
import { meaningText } from '../../../valuation/wording/own-word-text.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../actions/use-action.ts';
import { readerWords } from '../words.ts';
import type { WordAnswer } from './ask-words.tsx';
import type { Vocabulary } from './meaning-choices.ts';

const none: Vocabulary = {};

/** What the reference calls things, by field; empty until it is there. */
export const useVocabulary = (): Vocabulary =>
  useQuery({ queryKey: ['vocabulary'], queryFn: () => api.words.vocabulary() }).data ?? none;

/** What an answer did to rows, to stand behind what was answered: ": 2 cars settled". */
export const settledText = ({ cars, sales }: SettledWords, what = 'settled'): string => {
  const parts = [
    cars > 0 && (cars === 1 ? '1 car' : `${cars.toLocaleString()} cars`),
    sales > 0 && (sales === 1 ? '1 sale record' : `${sales.toLocaleString()} sale records`),
  ].filter(Boolean);
  return parts.length === 0 ? '' : `: ${parts.join(' and ')} ${what}`;
};

/** Saves what texts mean; whatever waits for them is settled with it. */
export const useSayMeaning = () =>
  useAction((answers: WordAnswer[]) => api.words.set({ words: answers }), {
    label: (answers, settled) => {
      const [only] = answers;
      const what =
        only && answers.length === 1
          ? `“${only.text === '*' ? only.column : only.text}” means ${meaningText(only, readerWords().locale)}`
          : `${answers.length} texts have a meaning`;
      return what + settledText(settled);
    },
    failure: 'That meaning could not be saved',
  });
