import { Button, TextInput } from '@mantine/core';
import { type FormEvent, useState } from 'react';
import type { ReportDefinitionView } from '../../../electron/api/reports/definitions.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import classes from './reports.module.css';

/** Saves how a paper is made under a name. */
export const SaveChoice = ({ wanted }: { wanted: () => ReportDefinitionView['wanted'] }) => {
  const [name, setName] = useState('');
  const save = useAction(() => api.reports.saveDefinition({ name: name.trim(), wanted: wanted() }), {
    label: 'Report saved under its name',
    onDone: () => setName(''),
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim()) save.mutate();
  };
  return (
    <form className={classes.saveChoice} onSubmit={submit}>
      <TextInput
        label="Save these choices as"
        description="Made again later with the values of that day"
        placeholder="Insurance, every January"
        value={name}
        maxLength={200}
        onChange={event => setName(event.currentTarget.value)}
      />
      <Button type="submit" disabled={!name.trim()} loading={save.isPending}>
        Save the choices
      </Button>
    </form>
  );
};
