import type { ImportKind, ImportPreview } from '../../../../electron/api/views.ts';
import classes from './import.module.css';
import { kindWords } from './import-choice.ts';

const plural = (count: number, one: string, more: string) =>
  `${count.toLocaleString()} ${count === 1 ? one : more}`;

/** What becomes of the rows, as one bar and in words. */
export const RowCounts = ({
  counts,
  as,
  waiting,
}: {
  counts: ImportPreview['counts'];
  as: ImportKind;
  /** How many texts of the list are not understood. */
  waiting: number;
}) => {
  const { accepted, rejected, duplicates, unidentified } = counts;
  const all = Math.max(1, accepted + rejected + duplicates);
  const known = accepted - unidentified;
  const parts = [
    { word: 'taken', count: known },
    { word: 'unidentified', count: unidentified },
    { word: 'duplicates', count: duplicates },
    { word: 'rejected', count: rejected },
  ];
  return (
    <div className={classes.counts}>
      <span className={classes.bar} aria-hidden="true">
        {parts.map(({ word, count }) => (
          <span key={word} data-part={word} style={{ flexGrow: count / all }} />
        ))}
      </span>
      <ul>
        <li data-part="taken">
          <strong>{accepted.toLocaleString()}</strong>{' '}
          {accepted === 1 ? kindWords[as].row : kindWords[as].rows} would be imported
        </li>
        {unidentified > 0 ? (
          <li data-part="unidentified">
            <strong>{unidentified.toLocaleString()}</strong> of them without a variation yet; the text is
            saved
          </li>
        ) : null}
        {waiting > 0 ? (
          <li data-part="unidentified">
            <strong>{plural(waiting, 'text', 'texts')}</strong> not understood, saved as written until you say
            what {waiting === 1 ? 'it means' : 'they mean'}
          </li>
        ) : null}
        {duplicates > 0 ? (
          <li data-part="duplicates">
            <strong>{duplicates.toLocaleString()}</strong> already known, left as{' '}
            {duplicates === 1 ? 'it is' : 'they are'}
          </li>
        ) : null}
        {rejected > 0 ? (
          <li data-part="rejected">
            <strong>{plural(rejected, 'row', 'rows')}</strong> cannot be read
          </li>
        ) : null}
      </ul>
    </div>
  );
};
