import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import classes from './assumptions.module.css';

/**
 * Stands at the foot while something is changed: keeps it all as one new version with a note, or lets it go.
 */
export const KeepBar = ({
  changes,
  of = 'figure',
  next,
  saving,
  onKeep,
  onDiscard,
}: {
  changes: number;
  /** What each of them is. */
  of?: 'figure' | 'step';
  /** Number of the version that it will be. */
  next: number;
  saving: boolean;
  onKeep: (note: string) => void;
  onDiscard: () => void;
}) => {
  const [note, setNote] = useState('');
  return (
    <form
      className={classes.keepBar}
      onSubmit={event => {
        event.preventDefault();
        onKeep(note.trim());
      }}
    >
      <strong>{changes === 1 ? `1 ${of} changed` : `${changes} ${of}s changed`}</strong>
      <TextInput
        aria-label="Reason for the change (optional)"
        placeholder="Reason for the change (optional)"
        className={classes.keepNote}
        maxLength={200}
        value={note}
        onChange={event => setNote(event.currentTarget.value)}
      />
      <Button onClick={onDiscard}>Discard</Button>
      <Button type="submit" variant="filled" loading={saving}>
        Save as version {next}
      </Button>
    </form>
  );
};
