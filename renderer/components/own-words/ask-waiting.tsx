import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import type { WaitingWordView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { counted } from '../format.ts';
import { type AskedWord, AskWords } from './ask-words.tsx';
import { useAsked } from './use-asked.ts';

/** The texts of all cars and sale records that are not understood. */
export const useWaitingWords = () =>
  useQuery({ queryKey: ['words waiting'], queryFn: () => api.words.waiting() });

const Where = ({ cars, sales, carIds, saleIds }: WaitingWordView) => (
  <>
    {cars > 0 ? (
      <Link href={cars === 1 ? `~/cars/${carIds[0]}` : '~/cars?show=not-understood'}>
        {counted(cars, 'car')}
      </Link>
    ) : null}
    {cars > 0 && sales > 0 ? ', ' : null}
    {sales > 0 ? (
      <Link href={sales === 1 ? `~/sales?record=${saleIds[0]}` : '~/sales?show=not-understood'}>
        {counted(sales, 'sale record')}
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
}) => <AskWords compact={compact} {...useAsked(words, askedOf)} />;
