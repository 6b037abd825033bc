import classes from './cautions.module.css';
import { always, type CautionKind, cautions } from './cautions.ts';

/** Cautions for work that can hurt, in full and always in sight. */
export const CautionList = ({ kinds }: { kinds: readonly CautionKind[] }) =>
  kinds.length === 0 ? null : (
    <aside className={classes.cautions} aria-label="Cautions">
      <h3>Before you begin</h3>
      <dl>
        {kinds.map(kind => (
          <div key={kind}>
            <dt>{cautions[kind].title}</dt>
            <dd>
              {cautions[kind].sentences.map(sentence => (
                <p key={sentence}>{sentence}</p>
              ))}
            </dd>
          </div>
        ))}
      </dl>
      <p className={classes.always}>{always}</p>
    </aside>
  );
