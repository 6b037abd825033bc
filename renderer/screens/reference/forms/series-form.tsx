import { Modal, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { SeriesRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { NotesField } from '../../../components/inputs/notes-field.tsx';
import { YearField } from '../../../components/inputs/year-field.tsx';
import classes from '../reference.module.css';
import { FormFoot } from './form-foot.tsx';

const Form = ({ series, onClose }: { series: SeriesRow; onClose: () => void }) => {
  const [draft, setDraft] = useState(series);
  const set = (change: Partial<SeriesRow>) => setDraft(before => ({ ...before, ...change }));
  const save = useAction((input: SeriesRow) => api.reference.saveSeries(input), {
    label: input => `Series ${input.name} changed`,
    onDone: onClose,
  });
  const year = (key: 'firstYear' | 'lastYear', label: string) => (
    <YearField label={label} value={draft[key]} onChange={value => set({ [key]: value })} />
  );
  return (
    <form
      className={classes.form}
      onSubmit={event => {
        event.preventDefault();
        if (draft.name.trim() && draft.maker.trim()) save.mutate(draft);
      }}
    >
      <TextInput
        label="Series"
        required
        data-autofocus
        maxLength={200}
        value={draft.name}
        onChange={event => set({ name: event.currentTarget.value })}
      />
      <div className={classes.pair}>
        {year('firstYear', 'From')}
        {year('lastYear', 'To')}
      </div>
      <NotesField label="Notes on the series" value={draft.notes} onChange={text => set({ notes: text })} />
      <div className={classes.pair}>
        <TextInput
          label="Maker"
          description="All its series change with it"
          required
          maxLength={200}
          value={draft.maker}
          onChange={event => set({ maker: event.currentTarget.value })}
        />
        <TextInput
          label="Country of the maker"
          description="Printed in reports"
          maxLength={200}
          value={draft.country}
          onChange={event => set({ country: event.currentTarget.value })}
        />
      </div>
      <NotesField
        label="Notes on the maker"
        value={draft.makerNotes}
        onChange={text => set({ makerNotes: text })}
      />
      <FormFoot submit="Save" loading={save.isPending} onClose={onClose} />
    </form>
  );
};

/** The form of a series and its maker; none is open without one. */
export const SeriesForm = ({ series, onClose }: { series: SeriesRow | null; onClose: () => void }) => (
  <Modal
    opened={series !== null}
    onClose={onClose}
    title={series ? `Series ${series.name}` : ''}
    closeButtonProps={{ 'aria-label': 'Close' }}
  >
    {series ? <Form key={series.id} series={series} onClose={onClose} /> : null}
  </Modal>
);
