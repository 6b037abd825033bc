import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { CollectionSummary } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { CurrencyField } from '../../components/inputs/currency-field.tsx';
import { Section } from '../../components/layout/section.tsx';
import classes from './settings.module.css';

/** What the collection is called, whose it is, where it lies, and in what currency its totals are. */
export const CollectionSection = ({ summary }: { summary: CollectionSummary }) => {
  const [name, setName] = useState(summary.name);
  const [owner, setOwner] = useState(summary.owner);
  const [currency, setCurrency] = useState(summary.reportingCurrency);
  const save = useAction(
    (input: { name?: string; owner?: string; reportingCurrency?: string }) =>
      api.collection.saveSettings(input),
    { label: 'Settings changed' },
  );
  const changed = {
    ...(name.trim() !== summary.name && { name: name.trim() }),
    ...(owner.trim() !== summary.owner && { owner: owner.trim() }),
    ...(currency !== summary.reportingCurrency && { reportingCurrency: currency }),
  };
  return (
    <Section id="collection" title="Collection">
      <form
        className={classes.collection}
        onSubmit={event => {
          event.preventDefault();
          save.mutate(changed, { onError: () => setCurrency(summary.reportingCurrency) });
        }}
      >
        <TextInput
          label="Name"
          description="Shown at the top of every screen"
          value={name}
          maxLength={200}
          onChange={event => setName(event.currentTarget.value)}
        />
        <TextInput
          label="Owner"
          description="Named on the cover of reports"
          value={owner}
          maxLength={200}
          onChange={event => setOwner(event.currentTarget.value)}
        />
        <CurrencyField
          label="Reporting currency"
          description="Fixed once amounts are saved in it"
          value={currency}
          onChange={setCurrency}
        />
        <div className={classes.save}>
          <Button
            type="submit"
            variant="filled"
            disabled={Object.keys(changed).length === 0}
            loading={save.isPending}
          >
            Save
          </Button>
        </div>
      </form>
      <p className={classes.place}>
        <span className="soft">Stored in</span> <code>{summary.dir}</code>
        <span className="soft">
          Copy this folder as a whole to move it or store it elsewhere: it holds the records, the photographs
          and the backups.
        </span>
      </p>
    </Section>
  );
};
