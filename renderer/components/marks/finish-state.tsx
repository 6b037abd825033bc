import { useId } from 'react';
import type { FinishState as FinishStateWord } from '../../../valuation/words.ts';
import { readerWords } from '../words.ts';
import classes from './marks.module.css';

const Glyph = ({ state }: { state: FinishStateWord }) => {
  const id = useId();
  const box = { x: 1, y: 2, width: 10, height: 8, rx: 1.5 };
  return (
    <svg className={classes.glyph} data-finish={state} viewBox="0 0 12 12" aria-hidden="true">
      {state === 'restored' ? (
        <defs>
          <pattern id={id} width="3" height="3" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <rect width="1.4" height="3" />
          </pattern>
        </defs>
      ) : null}
      {state === 'original' ? <rect {...box} className={classes.hollow} /> : null}
      {state === 'touched up' ? (
        <>
          <rect {...box} className={classes.hollow} />
          <circle cx="7.5" cy="5.5" r="1.8" />
        </>
      ) : null}
      {state === 'restored' ? (
        <rect {...box} className={classes.hollow} style={{ fill: `url(#${id})` }} />
      ) : null}
      {state === 'customised' ? <path d="M6 1 L11 6 L6 11 L1 6 Z" className={classes.hollow} /> : null}
      {state === 'stripped' ? <rect {...box} className={classes.dashed} /> : null}
    </svg>
  );
};

/** What has happened to a car's finish, as a word with a mark; the fills are those of the worth strip. */
export const FinishState = ({ state }: { state: FinishStateWord }) => (
  <span className={classes.finish}>
    <Glyph state={state} />
    {readerWords().spell(state)}
  </span>
);
