import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { api } from '../../api/client.ts';
import { errorSentence, refusalReason } from '../../api/error-sentence.ts';
import { useEntry } from '../../api/use-entry.ts';
import { FolderField } from '../../components/folders/folder-field.tsx';
import classes from '../../components/folders/folders.module.css';
import { CurrencyField } from '../../components/inputs/currency-field.tsx';
import { places } from '../../components/layout/places.ts';
import { likelyCurrency } from './likely-currency.ts';

/** Where the new collection will lie, whose it is, and in what currency its worths are told. */
export const NewCollection = ({
  way,
  defaultDir,
  onCancel,
}: {
  way: 'empty' | 'import';
  defaultDir: string;
  onCancel: () => void;
}) => {
  const [dir, setDir] = useState(defaultDir);
  const [currency, setCurrency] = useState(() => likelyCurrency(navigator.language));
  const [owner, setOwner] = useState('');
  const [, navigate] = useLocation();
  const create = useEntry(
    () => api.collection.create({ dir: dir.trim(), reportingCurrency: currency, owner: owner.trim() }),
    () => navigate(way === 'import' ? '/lots/import' : '/'),
  );
  const seeBackups = useEntry(
    () => api.collection.open({ dir: dir.trim() }),
    () => navigate('/'),
    () => navigate(places.recovery),
  );
  const overBackups = refusalReason(create.error) === 'needs-restoring';
  return (
    <form
      className={classes.form}
      aria-label="The new collection"
      onSubmit={event => {
        event.preventDefault();
        if (dir.trim()) create.mutate();
      }}
    >
      <FolderField
        label="Folder"
        description="It will be created if it does not exist"
        value={dir}
        onChange={setDir}
        title="Folder for the new collection"
      />
      <CurrencyField
        label="Currency for values"
        description="Prices can be in any"
        value={currency}
        onChange={setCurrency}
      />
      <TextInput
        label="Owner"
        description="For reports; optional"
        value={owner}
        maxLength={200}
        autoComplete="name"
        onChange={event => setOwner(event.currentTarget.value)}
      />
      {create.error ? (
        <div className={classes.problem} role="alert">
          {overBackups ? (
            <>
              This folder holds the backups of a collection whose database is gone. A new collection cannot be
              made over them.{' '}
              <button type="button" className="as-link" onClick={() => seeBackups.mutate()}>
                See them, and restore one
              </button>{' '}
              or choose another folder for the new collection.
            </>
          ) : (
            errorSentence(create.error)
          )}
        </div>
      ) : null}
      <div className={classes.formFoot}>
        <Button onClick={onCancel}>Cancel</Button>
        <Button type="submit" variant="filled" disabled={!dir.trim()} loading={create.isPending}>
          {way === 'import' ? 'Create it and choose a file' : 'Create the collection'}
        </Button>
      </div>
    </form>
  );
};
