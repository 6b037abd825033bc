import type { LedgerResult } from '../../../../../electron/api/views.ts';
import classes from '../import.module.css';
import { columnWords } from '../import-choice.ts';
import { outcomeWords } from '../sample-rows.tsx';

/** The first rows of a list of the books with what becomes of each, and the first that are left out. */
export const BookRows = ({ tried: { sample, columns: all } }: { tried: LedgerResult }) => {
  // A list of jobs has more columns than anybody reads: those that say something here, or are at fault.
  const columns = all.filter(own => sample.some(({ column, values }) => values[own] || column === own));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by keyboard
    <section className={classes.scroll} aria-label="Rows of the file" tabIndex={0}>
      <table className={classes.rows}>
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">Outcome</th>
            {columns.map(column => (
              <th key={column} scope="col">
                {columnWords(column)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {sample.map(({ line, outcome, column, reason, values }) => (
            <tr key={line} data-outcome={outcome}>
              <td className={classes.line}>{line}</td>
              <td className={classes.outcome} data-told={outcome !== 'accepted' || undefined}>
                <span className={classes.mark}>{outcomeWords[outcome]}</span>
                {reason ? (
                  <span className={classes.reason}>
                    {column ? `${columnWords(column)}: ` : ''}
                    {reason}
                  </span>
                ) : null}
              </td>
              {columns.map(own => (
                <td key={own} data-wrong={(outcome === 'rejected' && own === column) || undefined}>
                  {values[own]}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
};
