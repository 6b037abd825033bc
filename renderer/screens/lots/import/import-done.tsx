import { Button } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { useLocation } from 'wouter';
import type { ImportResult } from '../../../../electron/api/views.ts';
import { useUndo } from '../../../components/actions/use-undo.ts';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { Section } from '../../../components/layout/section.tsx';
import classes from './import.module.css';
import { RejectedRows } from './rejected-rows.tsx';

/**
 * The page of an import that was run: the way to what was taken, its undo, the lines that were left out, and
 * notes. The children, told whether it was undone, stand above the lines (`above`) and below all (`below`).
 */
export const ImportDone = ({
  title,
  facts,
  fileName,
  place,
  took,
  rejected,
  mending,
  notes,
  onAgain,
  above,
  below,
}: {
  title: string;
  facts: readonly (string | null)[];
  fileName: string;
  /** Where what was taken is seen. */
  place: { to: string; label: string };
  /** Whether anything was taken, which can be undone. */
  took: boolean;
  rejected: ImportResult['rejected'];
  /** What to do with lines that were left out. */
  mending: string;
  notes: readonly string[];
  onAgain: () => void;
  above?: (undone: boolean) => ReactNode;
  below?: (undone: boolean) => ReactNode;
}) => {
  const { undo } = useUndo();
  const [undone, setUndone] = useState(false);
  const [, navigate] = useLocation();
  const stands = took && !undone;
  return (
    <>
      <PageHeader
        title={undone ? 'The import was undone' : title}
        facts={[fileName, ...facts].filter(Boolean).join(' · ')}
        back={{ label: 'Lots', to: '/lots' }}
      />
      <div className="page">
        <p className={classes.next}>
          {stands ? (
            <Button variant="filled" size="sm" onClick={() => navigate(place.to)}>
              {place.label}
            </Button>
          ) : null}
          <Button size="sm" onClick={onAgain}>
            Import another file
          </Button>
          {stands ? (
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
          ) : null}
        </p>
        {above?.(undone)}
        {rejected.length > 0 ? (
          <Section title="Lines that were left out" aside={mending}>
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
        {below?.(undone)}
      </div>
    </>
  );
};
