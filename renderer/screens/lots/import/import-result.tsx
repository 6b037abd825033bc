import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { ImportKind, ImportResult } from '../../../../electron/api/views.ts';
import { cellsText } from '../../../../valuation/wording/file-words.ts';
import { useUndo } from '../../../components/actions/use-undo.ts';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { WhatWaits } from '../../../components/waiting/what-waits.tsx';
import classes from './import.module.css';
import { kindWords } from './import-choice.ts';
import { RejectedRows } from './rejected-rows.tsx';
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
  const { undo } = useUndo();
  const [undone, setUndone] = useState(false);
  const [, navigate] = useLocation();
  const { accepted, duplicates, rejected, unidentified, addedCastings, lot, lots = [], cells } = result;
  const notes = result.notes.filter(note => !isOfName(note));
  const place = placeOf(as, result);
  const title = undone
    ? 'The import was undone'
    : accepted === 0
      ? 'Nothing was imported'
      : `Imported ${counted(Math.max(made, accepted), kindWords[as].row, kindWords[as].rows)}${lot ? ` into ${lot.name}` : ''}`;
  const facts = [
    fileName,
    unidentified > 0 ? `${unidentified} without a variation yet` : null,
    addedCastings > 0 ? `${counted(addedCastings, 'casting')} added to the reference` : null,
    duplicates > 0 ? `${duplicates} already known` : null,
    accepted > 0 ? cellsText(cells) : null,
    rejected.length > 0 ? `${counted(rejected.length, 'line')} left out` : 'every row was read',
  ];
  return (
    <>
      <PageHeader
        title={title}
        facts={facts.filter(Boolean).join(' · ')}
        back={{ label: 'Lots', to: '/lots' }}
      />
      <div className="page">
        <p className={classes.next}>
          {undone || accepted === 0 ? null : (
            <Button variant="filled" size="sm" onClick={() => navigate(place.to)}>
              {place.label}
            </Button>
          )}
          <Button size="sm" onClick={onAgain}>
            Import another file
          </Button>
          {undone || accepted === 0 ? null : (
            <Button
              size="sm"
              variant="subtle"
              onClick={async () => {
                await undo();
                setUndone(true);
              }}
            >
              Undo this import
            </Button>
          )}
        </p>
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
        {rejected.length > 0 ? (
          <Section
            title="Lines that were left out"
            aside="Where one is a row after all, correct it and import the file again: what is known is skipped"
          >
            <RejectedRows rejected={rejected} fileName={fileName} />
          </Section>
        ) : null}
        {notes.length > 0 ? (
          <Section title="Notes">
            <ul className={classes.notes}>
              {notes.map(note => (
                <li key={note}>{note}</li>
              ))}
            </ul>
          </Section>
        ) : null}
        {lot && unidentified > 0 && !undone ? (
          <p className="soft">
            Cars without a variation are marked in the lot;{' '}
            <Link href={`/${lot.id}`}>identify them there</Link> by their features.
          </p>
        ) : null}
      </div>
    </>
  );
};
