import { useState } from 'react';
import type { ImportPreview } from '../../../../electron/api/views.ts';
import classes from './import.module.css';
import { columnWords } from './import-choice.ts';

const outcomeWords = { accepted: 'taken', rejected: 'rejected', duplicate: 'known' } as const;

/** The first rows as they would be taken, and the first that cannot be, each with its line and reason. */
export const SampleRows = ({ preview }: { preview: ImportPreview }) => {
  const [only, setOnly] = useState<'all' | 'rejected'>('all');
  const rejected = preview.sample.filter(row => row.outcome === 'rejected');
  const shown = only === 'rejected' && rejected.length > 0 ? rejected : preview.sample;
  const columns = preview.columns.flatMap(({ ours, heading }) => (ours === null ? [] : [{ ours, heading }]));
  return (
    <>
      {rejected.length > 0 && rejected.length < preview.sample.length ? (
        <p className={classes.filter}>
          {(['all', 'rejected'] as const).map(which => (
            <button key={which} type="button" aria-pressed={only === which} onClick={() => setOnly(which)}>
              {which === 'all' ? `First ${preview.sample.length}` : `Rejected ${rejected.length}`}
            </button>
          ))}
        </p>
      ) : null}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by keyboard */}
      <section className={classes.scroll} aria-label="Rows of the file" tabIndex={0}>
        <table className={classes.rows}>
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">Outcome</th>
              {columns.map(({ ours }) => (
                <th key={ours} scope="col">
                  {columnWords(ours)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map(row => (
              <tr key={row.line} data-outcome={row.outcome}>
                <td className={classes.line}>{row.line}</td>
                <td className={classes.outcome}>
                  <span className={classes.mark}>{outcomeWords[row.outcome]}</span>
                  {row.reason || row.note ? (
                    <span className={classes.reason}>
                      {row.column ? `${row.column}: ` : ''}
                      {row.reason ?? row.note}
                    </span>
                  ) : null}
                </td>
                {columns.map(({ ours, heading }) => (
                  <td key={ours} data-wrong={row.column === heading || row.column === ours || undefined}>
                    {row.values[ours] ?? ''}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
};
