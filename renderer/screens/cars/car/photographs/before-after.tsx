import { useState } from 'react';
import { dateText } from '../../../../components/format.ts';
import { Photo } from '../../../../components/photo/photo.tsx';
import { useWords } from '../../../../components/words.ts';
import type { PhotoPair } from './pairs.ts';
import classes from './photographs.module.css';

const dated = (word: string, on: string | null) => (on ? `${word} · ${dateText(on)}` : word);

/**
 * One view before and after the work, the one laid over the other up to a line that is drawn with
 * mouse or arrow keys.
 */
export const BeforeAfter = ({ pair, car }: { pair: PhotoPair; car: string }) => {
  const [at, setAt] = useState(50);
  const view = useWords().view(pair.view);
  return (
    <div className={classes.compare}>
      <Photo sha256={pair.before.sha256} size="screen" alt={`${car} before, ${view}`} height="100%" />
      <div className={classes.over} style={{ clipPath: `inset(0 0 0 ${at}%)` }}>
        <Photo sha256={pair.after.sha256} size="screen" alt={`${car} after, ${view}`} height="100%" />
      </div>
      <span className={classes.stateBefore}>{dated('before', pair.before.takenOn)}</span>
      <span className={classes.stateAfter}>{dated('after', pair.after.takenOn)}</span>
      <input
        className={classes.range}
        type="range"
        min={0}
        max={100}
        value={at}
        aria-label="Line between before and after"
        aria-valuetext={`${at} % before, ${100 - at} % after`}
        onChange={event => setAt(Number(event.currentTarget.value))}
      />
      <span className={classes.line} style={{ left: `${at}%` }} aria-hidden="true">
        <span className={classes.handle}>‹ ›</span>
      </span>
    </div>
  );
};
