import type { CarPage, WaitingWordView } from '../../../../../electron/api/views.ts';
import { AskWaiting, useWaitingWords } from '../../../../components/own-words/ask-waiting.tsx';
import { wordKey } from '../../../../components/own-words/ask-words.tsx';
import classes from './identity.module.css';

/**
 * What was written about this car and is not understood, to be settled here for all cars that say the same.
 */
export const CarUnread = ({ car }: { car: CarPage }) => {
  const { data = [] } = useWaitingWords();
  if (car.unread.length === 0) return null;
  const waiting = new Map(data.map(word => [wordKey(word), word]));
  const own = car.unread
    .map(text => waiting.get(wordKey(text)))
    .filter((word): word is WaitingWordView => word !== undefined);
  return (
    <section className={classes.unread} aria-label="Not understood">
      <p className="caution">Not understood; saved as written. One answer holds wherever the text appears.</p>
      <AskWaiting words={own} compact />
    </section>
  );
};
