import { cautions, generalCautions, type Hazard } from '../../../valuation/wording/work/cautions.ts';
import { readerWords } from '../words.ts';
import classes from './cautions.module.css';

/**
 * Cautions for work that can hurt. The gravest sentence of each hazard is always in sight; the others too
 * where the work is planned or done (`open`), else behind their title.
 */
export const CautionList = ({ hazards, open = false }: { hazards: readonly Hazard[]; open?: boolean }) =>
  hazards.length === 0 ? null : (
    <aside className={classes.cautions} aria-label="Cautions">
      <h3>Before you begin</h3>
      {hazards.map(hazard => {
        const { title, sentences, authority } = cautions[hazard];
        const { spell } = readerWords();
        const [first, ...others] = sentences;
        return (
          <details key={hazard} open={open}>
            <summary>
              <strong>{spell(title)}.</strong> {spell(first ?? '')}
            </summary>
            <ul>
              {others.map(sentence => (
                <li key={sentence}>{readerWords().spell(sentence)}</li>
              ))}
            </ul>
            <p className={classes.authority}>From memory; look it up in {spell(authority)}.</p>
          </details>
        );
      })}
      <ul className={classes.always}>
        {(open ? generalCautions : generalCautions.slice(0, 1)).map(sentence => (
          <li key={sentence}>{readerWords().spell(sentence)}</li>
        ))}
      </ul>
    </aside>
  );
