import { useState } from 'react';
import type { ImportPreview } from '../../../../electron/api/views.ts';
import { identityFields } from '../../../../valuation/reading/sale-line/read-sale-line.ts';
import { gradeLabel } from '../../../../valuation/words.ts';
import { readerWords } from '../../../components/words.ts';
import classes from './import.module.css';
import { columnWords, plainColumn } from './import-choice.ts';

type Row = ImportPreview['sample'][number];

export const outcomeWords = { accepted: 'taken', rejected: 'left out', duplicate: 'known' } as const;

/** Fields that are read in words of ours, which readers spell in their own way; all others stay as their owner wrote them. */
const inOurWords: ReadonlySet<string> = new Set([
  'finish_state',
  'base_paint',
  'missing_parts',
  'reproduction_parts',
  'rarity',
  'status',
]);

/** What was understood of a field, as it is read; '' where nothing was. */
const understood = (field: string, value: unknown): string => {
  if (value === null || value === undefined) return '';
  if (field === 'grade' && typeof value === 'number')
    return gradeLabel(value as Parameters<typeof gradeLabel>[0]);
  return inOurWords.has(field) ? readerWords().spell(String(value)) : String(value);
};

/** What was understood of a text that describes a car: the facts that no column of the file gives. */
const described = ({ fields }: Row, given: ReadonlySet<string>): string => {
  const facts = [...identityFields, 'grade', 'finish_state']
    .filter(field => !given.has(field))
    .map(field => understood(field, fields[field]));
  const count = given.has('quantity') ? 1 : Number(fields.quantity ?? 1);
  return [...facts, count > 1 ? `× ${count}` : ''].filter(Boolean).join(' · ');
};

const alike = (one: string, other: string) =>
  one.replace(/^C(?=\d)/, '').toLowerCase() === other.replace(/^C(?=\d)/, '').toLowerCase();

const Cell = ({
  row,
  ours,
  heading,
  given,
}: {
  row: Row;
  ours: string;
  heading: string;
  given: ReadonlySet<string>;
}) => {
  const written = row.values[ours] ?? '';
  const unread = row.unread.filter(({ column, text }) => column === heading && text !== '');
  if (row.outcome === 'rejected')
    return <td data-wrong={row.column === heading || row.column === ours || undefined}>{written}</td>;
  const read = ours === 'description' ? described(row, given) : understood(ours, row.fields[ours]);
  if (unread.length > 0)
    return (
      <td title="Not understood yet: saved as written">
        {read && !alike(read, written) ? <span>{read} </span> : null}
        <em className={classes.unread}>{unread.map(({ text }) => text).join(' · ')}</em>
      </td>
    );
  return (
    <td>
      {read || written}
      {read && written && !alike(read, written) ? <span className={classes.written}>{written}</span> : null}
    </td>
  );
};

/** What a line is instead of a row, in a word; of several cars, what to do with them. */
const whyOf = ({ not, reason, note }: Row): string | null => (not === 'lot' ? reason : not) ?? reason ?? note;

/**
 * The first rows as they would be taken, and the first that cannot be, each with its line: what is
 * understood, beside it what was written where that differs, and what is not understood.
 */
export const SampleRows = ({ preview }: { preview: ImportPreview }) => {
  const [only, setOnly] = useState<'all' | 'rejected'>('all');
  const rejected = preview.sample.filter(row => row.outcome === 'rejected');
  const shown = only === 'rejected' && rejected.length > 0 ? rejected : preview.sample;
  const given = new Set(preview.columns.flatMap(({ ours }) => ours ?? []));
  const columns = preview.columns.flatMap(({ ours, heading }) => (ours === null ? [] : [{ ours, heading }]));
  return (
    <>
      {rejected.length > 0 && rejected.length < preview.sample.length ? (
        <p className={classes.filter}>
          {(['all', 'rejected'] as const).map(which => (
            <button key={which} type="button" aria-pressed={only === which} onClick={() => setOnly(which)}>
              {which === 'all' ? `First ${preview.sample.length}` : `Left out ${rejected.length}`}
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
              <tr key={`${row.sheet ?? ''} ${row.line}`} data-outcome={row.not ? 'aside' : row.outcome}>
                <td className={classes.line}>{row.line}</td>
                <td className={classes.outcome} data-told={row.outcome !== 'accepted' || undefined}>
                  {row.outcome === 'accepted' && row.note ? (
                    <details>
                      <summary className={classes.mark}>{outcomeWords[row.outcome]}</summary>
                      <span className={classes.reason}>{row.note}</span>
                    </details>
                  ) : (
                    <>
                      <span className={classes.mark}>{outcomeWords[row.outcome]}</span>
                      {row.not || row.reason || row.note ? (
                        <span className={classes.reason}>
                          {row.column ? `${plainColumn(row.column)}: ` : ''}
                          {whyOf(row)}
                        </span>
                      ) : null}
                    </>
                  )}
                </td>
                {columns.map(({ ours, heading }) => (
                  <Cell key={ours} row={row} ours={ours} heading={heading} given={given} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
};
