import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { api } from '../../api/client.ts';
import { errorSentence } from '../../api/error-sentence.ts';
import { CurrencyField } from '../../components/inputs/currency-field.tsx';
import classes from './first-start.module.css';
import { FolderField } from './folder-field.tsx';
import { likelyCurrency } from './likely-currency.ts';
import { useEntry } from './use-entry.ts';

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
        label="Where it lies"
        description="A folder that need not exist yet"
        value={dir}
        onChange={setDir}
        title="Folder for the new collection"
      />
      <CurrencyField
        label="Currency of worths"
        description="Prices can be in any"
        value={currency}
        onChange={setCurrency}
      />
      <TextInput
        label="Owner"
        description="For reports; may be left out"
        value={owner}
        maxLength={200}
        autoComplete="name"
        onChange={event => setOwner(event.currentTarget.value)}
      />
      {create.error ? (
        <p className={classes.problem} role="alert">
          {errorSentence(create.error)}
        </p>
      ) : null}
      <div className={classes.formFoot}>
        <Button onClick={onCancel}>Cancel</Button>
        <Button type="submit" variant="filled" disabled={!dir.trim()} loading={create.isPending}>
          {way === 'import' ? 'Make it and choose a file' : 'Make the collection'}
        </Button>
      </div>
    </form>
  );
};
