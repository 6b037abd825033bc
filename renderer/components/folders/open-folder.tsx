import { Button } from '@mantine/core';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { api } from '../../api/client.ts';
import { errorSentence, refusalReason } from '../../api/error-sentence.ts';
import { useEntry } from '../../api/use-entry.ts';
import { places } from '../layout/places.ts';
import { FolderField } from './folder-field.tsx';
import classes from './folders.module.css';

/** The way back to a collection that lies somewhere else, a restored or a moved one. */
export const OpenFolder = ({
  open,
  onOpen,
  onCancel,
}: {
  open: boolean;
  onOpen: () => void;
  onCancel: () => void;
}) => {
  const [dir, setDir] = useState('');
  const [, navigate] = useLocation();
  const opening = useEntry(
    () => api.collection.open({ dir: dir.trim() }),
    () => navigate('/'),
    // A folder with a collection that cannot be opened has a page of its own; one without is said in place.
    error => {
      if (refusalReason(error) !== 'missing') navigate(places.recovery);
    },
  );
  if (!open)
    return (
      <p className={classes.other}>
        Already have a collection?{' '}
        <button type="button" className="as-link" onClick={onOpen}>
          Open its folder
        </button>
      </p>
    );
  return (
    <form
      className={classes.form}
      aria-label="Open a collection"
      onSubmit={event => {
        event.preventDefault();
        if (dir.trim()) opening.mutate();
      }}
    >
      <FolderField
        label="Folder of the collection"
        description="The one that holds collection.sqlite"
        value={dir}
        onChange={setDir}
        title="Folder of the collection"
      />
      {opening.error ? (
        <p className={classes.problem} role="alert">
          {errorSentence(opening.error)}
        </p>
      ) : null}
      <div className={classes.formFoot}>
        <Button onClick={onCancel}>Cancel</Button>
        <Button type="submit" variant="filled" disabled={!dir.trim()} loading={opening.isPending}>
          Open
        </Button>
      </div>
    </form>
  );
};
