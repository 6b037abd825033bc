import type { ImportKind, ImportPreview } from '../../../../electron/api/views.ts';
import { cellsText } from '../../../../valuation/wording/file-words.ts';
import classes from './import.module.css';
import { kindWords } from './import-choice.ts';

const plural = (count: number, one: string, more: string) =>
  `${count.toLocaleString()} ${count === 1 ? one : more}`;

/** What becomes of the rows, as one bar and in words. */
export const RowCounts = ({
  preview: { counts, cells, lots, notUnderstood, sample },
  as,
}: {
  preview: ImportPreview;
  as: ImportKind;
}) => {
  const { accepted, rejected, duplicates, unidentified } = counts;
  const all = Math.max(1, accepted + rejected + duplicates);
  const cars = Math.max(accepted, as === 'lot' ? lots.reduce((sum, lot) => sum + lot.cars, 0) : 0);
  const known = accepted - unidentified;
  const waiting = notUnderstood.length;
  // Lines that are no rows, such as totals, are not a matter of putting right.
  const aside = sample.filter(({ outcome, not }) => outcome === 'rejected' && not !== null);
  const kinds = [...new Set(aside.map(({ not }) => not))];
  const isAside = rejected > 0 && aside.length === rejected;
  const parts = [
    { word: 'taken', count: known },
    { word: 'unidentified', count: unidentified },
    { word: 'duplicates', count: duplicates },
    { word: isAside ? 'duplicates' : 'rejected', count: rejected },
  ];
  return (
    <div className={classes.counts}>
      <span className={classes.bar} aria-hidden="true">
        {parts.map(({ word, count }, at) => (
          <span key={at} data-part={word} style={{ flexGrow: count / all }} />
        ))}
      </span>
      <ul>
        <li data-part="taken">
          <strong>{cars.toLocaleString()}</strong> {cars === 1 ? kindWords[as].row : kindWords[as].rows}
          {cars > accepted ? `, in ${plural(accepted, 'row', 'rows')},` : ''} would be imported
        </li>
        {accepted + duplicates > 0 ? <li data-part="taken">{cellsText(cells)}</li> : null}
        {unidentified > 0 ? (
          <li data-part="unidentified">
            <strong>{unidentified.toLocaleString()}</strong> of them not identified yet: what you wrote is
            saved, and names are settled after the import
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
          <li data-part={isAside ? 'duplicates' : 'rejected'}>
            <strong>{plural(rejected, 'line', 'lines')}</strong>{' '}
            {isAside
              ? `left out: ${kinds.join(', ')}`
              : `left out; ${rejected === 1 ? 'its row says' : 'their rows say'} why`}
          </li>
        ) : null}
      </ul>
    </div>
  );
};
