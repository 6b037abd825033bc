import { Button, Modal, NumberInput, Textarea, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { SeriesRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import classes from '../reference.module.css';

const Form = ({ series, onClose }: { series: SeriesRow; onClose: () => void }) => {
  const [draft, setDraft] = useState(series);
  const set = (change: Partial<SeriesRow>) => setDraft(before => ({ ...before, ...change }));
  const save = useAction((input: SeriesRow) => api.reference.saveSeries(input), {
    label: input => `Series ${input.name} changed`,
    onDone: onClose,
  });
  const year = (key: 'firstYear' | 'lastYear', label: string) => (
    <NumberInput
      label={label}
      value={draft[key] ?? ''}
      min={1900}
      max={2100}
      allowDecimal={false}
      hideControls
      onChange={value => set({ [key]: typeof value === 'number' ? value : null })}
    />
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
      <Textarea
        label="Notes on the series"
        autosize
        minRows={1}
        maxRows={8}
        value={draft.notes}
        onChange={event => set({ notes: event.currentTarget.value })}
      />
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
      <Textarea
        label="Notes on the maker"
        autosize
        minRows={1}
        maxRows={8}
        value={draft.makerNotes}
        onChange={event => set({ makerNotes: event.currentTarget.value })}
      />
      <div className={classes.formFoot}>
        <Button onClick={onClose}>Cancel</Button>
        <Button type="submit" variant="filled" loading={save.isPending}>
          Save
        </Button>
      </div>
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
