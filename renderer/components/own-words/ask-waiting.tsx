import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import type { WaitingWordView } from '../../../electron/api/views.ts';
import type { Meaning } from '../../../valuation/wording/own-word-text.ts';
import { api } from '../../api/client.ts';
import { type AskedWord, AskWords, wordKey } from './ask-words.tsx';
import { mergedAsked } from './merge-asked.ts';
import { useSayMeaning, useVocabulary } from './use-own-words.ts';

/** The texts of all cars and sale records that are not understood. */
export const useWaitingWords = () =>
  useQuery({ queryKey: ['words waiting'], queryFn: () => api.words.waiting() });

const plural = (count: number, one: string): string =>
  `${count.toLocaleString()} ${one}${count === 1 ? '' : 's'}`;

const Where = ({ cars, sales, carIds, saleIds }: WaitingWordView) => (
  <>
    {cars > 0 ? (
      <Link href={cars === 1 ? `~/cars/${carIds[0]}` : '~/cars?show=not-understood'}>
        {plural(cars, 'car')}
      </Link>
    ) : null}
    {cars > 0 && sales > 0 ? ', ' : null}
    {sales > 0 ? (
      <Link href={sales === 1 ? `~/sales?record=${saleIds[0]}` : '~/sales?show=not-understood'}>
        {plural(sales, 'sale record')}
      </Link>
    ) : null}
  </>
);

const askedOf = (word: WaitingWordView): AskedWord => ({
  column: word.column,
  text: word.text,
  field: word.field,
  meaning: word.meaning,
  rows: word.cars + word.sales,
  where: <Where {...word} />,
});

/**
 * Asks what waiting texts mean; each answer settles all that are equal. What was answered stays in its
 * place, to be changed.
 */
export const AskWaiting = ({
  words,
  compact = false,
}: {
  words: readonly WaitingWordView[];
  /** Beside other things: without where else a text stands. */
  compact?: boolean;
}) => {
  const [asked, setAsked] = useState<readonly AskedWord[]>([]);
  const [said, setSaid] = useState<ReadonlyMap<string, Meaning>>(new Map());
  const [seen, setSeen] = useState<readonly WaitingWordView[] | null>(null);
  const vocabulary = useVocabulary();
  const say = useSayMeaning();
  if (seen !== words) {
    setSeen(words);
    setAsked(mergedAsked(asked, words.map(askedOf), said));
  }
  const waiting = new Set(words.map(wordKey));
  return (
    <AskWords
      compact={compact}
      words={asked}
      answers={new Map([...said].filter(([key]) => !waiting.has(key)))}
      vocabulary={vocabulary}
      onAnswer={answer => {
        setSaid(before => new Map(before).set(wordKey(answer), answer));
        say.mutate([answer]);
      }}
    />
  );
};
