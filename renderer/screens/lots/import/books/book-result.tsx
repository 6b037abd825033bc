import { Button } from '@mantine/core';
import { useState } from 'react';
import { useLocation } from 'wouter';
import type { LedgerKind, LedgerResult } from '../../../../../electron/api/views.ts';
import { useUndo } from '../../../../components/actions/use-undo.ts';
import { PageHeader } from '../../../../components/layout/page-header.tsx';
import { Section } from '../../../../components/layout/section.tsx';
import classes from '../import.module.css';
import { RejectedRows } from '../rejected-rows.tsx';
import { bookCount } from './book-count.ts';

/** What an import into the books has done, with its undo and the lines that were left out. */
export const BookResult = ({
  as,
  fileName,
  result: { accepted, duplicates, rejected, notes },
  onAgain,
}: {
  as: LedgerKind;
  fileName: string;
  result: LedgerResult;
  onAgain: () => void;
}) => {
  const { undo } = useUndo();
  const [undone, setUndone] = useState(false);
  const [, navigate] = useLocation();
  const place =
    as === 'lots' ? { to: '~/lots', label: 'Go to the lots' } : { to: '~/cars', label: 'Go to the cars' };
  const facts = [
    fileName,
    duplicates > 0 ? `${duplicates.toLocaleString()} already known` : null,
    rejected.length > 0
      ? `${rejected.length.toLocaleString()} ${rejected.length === 1 ? 'line' : 'lines'} left out`
      : 'every row was read',
  ];
  return (
    <>
      <PageHeader
        title={undone ? 'The import was undone' : `Imported ${bookCount(as, accepted)}`}
        facts={facts.filter(Boolean).join(' · ')}
        back={{ label: 'Lots', to: '/lots' }}
      />
      <div className="page">
        <p className={classes.next}>
          {undone ? null : (
            <Button variant="filled" size="sm" onClick={() => navigate(place.to)}>
              {place.label}
            </Button>
          )}
          <Button size="sm" onClick={onAgain}>
            Import another file
          </Button>
          {undone ? null : (
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
        {rejected.length > 0 ? (
          <Section
            title="Lines that were left out"
            aside="Correct them and import the file again: what is known is skipped"
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
      </div>
    </>
  );
};
