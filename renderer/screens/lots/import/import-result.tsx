import { Link } from 'wouter';
import type { ImportKind, ImportResult } from '../../../../electron/api/views.ts';
import { cellsText } from '../../../../valuation/wording/file-words.ts';
import { Section } from '../../../components/layout/section.tsx';
import { WhatWaits } from '../../../components/waiting/what-waits.tsx';
import { kindWords } from './import-choice.ts';
import { ImportDone } from './import-done.tsx';
import shows from './shows.module.css';

const counted = (count: number, word: string, words = `${word}s`) =>
  `${count.toLocaleString()} ${count === 1 ? word : words}`;

/** Names that the reference does not know are told once, by what waits. */
const isOfName = (note: string): boolean => /^Line \d+: (?:variation )?unidentified/.test(note);

const placeOf = (as: ImportKind, result: ImportResult): { to: string; label: string } =>
  result.lot
    ? { to: `~/lots/${result.lot.id}`, label: `Go to ${result.lot.name}` }
    : as === 'sales'
      ? { to: '~/sales', label: 'Go to the sale records' }
      : as === 'reference'
        ? { to: '~/reference', label: 'Go to the reference' }
        : { to: '~/cars', label: 'Go to the cars' };

/** What an import has done, with its undo, its rejected rows and the way to what was taken. */
export const ImportedResult = ({
  result,
  made,
  as,
  fileName,
  onAgain,
}: {
  result: ImportResult;
  /** What the accepted rows make: more than they are, where one stands for several. */
  made: number;
  as: ImportKind;
  fileName: string;
  onAgain: () => void;
}) => {
  const { accepted, duplicates, rejected, unidentified, addedCastings, lot, lots = [], cells } = result;
  const { row, rows } = kindWords[as];
  const into = lot ? ` into ${lot.name}` : '';
  return (
    <ImportDone
      title={
        accepted === 0
          ? 'Nothing was imported'
          : `Imported ${counted(Math.max(made, accepted), row, rows)}${into}`
      }
      facts={[
        unidentified > 0 ? `${unidentified} without a variation yet` : null,
        addedCastings > 0 ? `${counted(addedCastings, 'casting')} added to the reference` : null,
        duplicates > 0 ? `${duplicates} already known` : null,
        accepted > 0 ? cellsText(cells) : null,
        rejected.length > 0 ? `${counted(rejected.length, 'line')} left out` : 'every row was read',
      ]}
      fileName={fileName}
      place={placeOf(as, result)}
      took={accepted > 0}
      rejected={rejected}
      mending="Where one is a row after all, correct it and import the file again: what is known is skipped"
      notes={result.notes.filter(note => !isOfName(note))}
      onAgain={onAgain}
      above={undone => (
        <>
          {undone || accepted === 0 ? null : <WhatWaits />}
          {!undone && lots.length > 1 ? (
            <Section title={`${lots.length} lots`} aside="by day and seller">
              <ul className={shows.lots}>
                {lots.map(({ id, name, cars }) => (
                  <li key={id}>
                    <Link href={`/${id}`}>{name}</Link> {counted(cars, 'car')}
                  </li>
                ))}
              </ul>
            </Section>
          ) : null}
        </>
      )}
      below={undone =>
        lot && unidentified > 0 && !undone ? (
          <p className="soft">
            Cars without a variation are marked in the lot;{' '}
            <Link href={`/${lot.id}`}>identify them there</Link> by their features.
          </p>
        ) : null
      }
    />
  );
};
