import type { ConditionCheckView } from '../../../../../electron/api/views.ts';
import { carGradeLabel, gradeLabel, partNames } from '../../../../../valuation/words.ts';
import { dateText } from '../../../../components/format.ts';
import { readerWords } from '../../../../components/words.ts';
import classes from './condition.module.css';

const letters = { original: '', 'period replacement': 'P', reproduction: 'R', missing: 'M' } as const;

const shown = 5;

/** Each check with its overall grade and its parts side by side, newest first. */
export const ChecksOverTime = ({ checks }: { checks: readonly ConditionCheckView[] }) => {
  const ordered = checks.toSorted((a, b) => b.checkedOn.localeCompare(a.checkedOn) || b.id - a.id);
  const columns = ordered.slice(0, shown);
  if (columns.length === 0)
    return (
      <p className={classes.never}>
        Grade its parts one by one: missing and replaced parts lower its value, and what is original stays on
        record when the car is worked on.
      </p>
    );
  const parts = partNames.filter(part =>
    columns.some(check => check.parts.some(state => state.part === part)),
  );
  return (
    <div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
      <section className="sideways" aria-label="Checks by date" tabIndex={0}>
        <table className={classes.checks}>
          <thead>
            <tr>
              <th scope="col">Check of</th>
              {columns.map(check => (
                <th key={check.id} scope="col">
                  {dateText(check.checkedOn)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            <tr className={classes.whole}>
              <th scope="row">overall</th>
              {columns.map(check => (
                <td key={check.id}>
                  {check.grade === null
                    ? '–'
                    : readerWords().spell(carGradeLabel(check.grade, check.finishState))}
                </td>
              ))}
            </tr>
            {parts.map(part => (
              <tr key={part}>
                <th scope="row">{part}</th>
                {columns.map(check => {
                  const state = check.parts.find(candidate => candidate.part === part);
                  if (!state) return <td key={check.id}>–</td>;
                  const letter = letters[state.originality];
                  return (
                    <td key={check.id} title={[state.originality, state.note].filter(Boolean).join(': ')}>
                      {state.grade === null ? '' : gradeLabel(state.grade)}
                      {letter ? (
                        <abbr className={classes.letter} title={state.originality}>
                          {letter}
                        </abbr>
                      ) : null}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p className={classes.key}>
        P period replacement, R reproduction, M missing; the others are original.
        {ordered.length > shown ? ` The newest ${shown} of ${ordered.length} checks.` : ''}
      </p>
      {columns.map(check =>
        check.notes ? (
          <p key={check.id} className={classes.note}>
            <span className="soft">{dateText(check.checkedOn)}</span> {check.notes}
          </p>
        ) : null,
      )}
    </div>
  );
};
