import { Drawer, NumberInput, Select, TextInput } from '@mantine/core';
import { useMemo, useState } from 'react';
import type { CastingPage, CastingRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { NotesField } from '../../../components/inputs/notes-field.tsx';
import { TypeAhead } from '../../../components/inputs/type-ahead.tsx';
import { YearField } from '../../../components/inputs/year-field.tsx';
import classes from '../reference.module.css';
import { type CastingDraft, castingDraft, choicesOf } from './drafts.ts';
import { FeatureValues } from './feature-values.tsx';
import { FormFoot } from './form-foot.tsx';
import { PartDetails } from './part-details.tsx';

const Form = ({
  casting,
  castings,
  onClose,
  onSaved,
}: {
  casting: CastingPage | null;
  castings: readonly CastingRow[];
  onClose: () => void;
  onSaved: (id: number) => void;
}) => {
  const [draft, setDraft] = useState(() => castingDraft(casting, castings));
  const set = (change: Partial<CastingDraft>) => setDraft(before => ({ ...before, ...change }));
  const makers = useMemo(() => choicesOf(castings.map(({ maker }) => maker)), [castings]);
  const series = useMemo(() => choicesOf(castings.map(row => row.series)), [castings]);
  const bodies = useMemo(() => choicesOf(castings.map(({ bodyType }) => bodyType)), [castings]);
  const save = useAction((input: CastingDraft) => api.reference.saveCasting(input), {
    label: input => `${input.name} ${casting ? 'changed' : 'added'}`,
    onDone: ({ id }) => {
      onClose();
      onSaved(id);
    },
  });
  const whole = draft.maker.trim() && draft.series.trim() && draft.name.trim();
  return (
    <form
      className={classes.form}
      onSubmit={event => {
        event.preventDefault();
        if (whole) save.mutate(draft);
      }}
    >
      <TextInput
        label="Name of the casting"
        required
        data-autofocus
        maxLength={200}
        value={draft.name}
        onChange={event => set({ name: event.currentTarget.value })}
      />
      <div className={classes.pair}>
        <TypeAhead
          label="Maker"
          value={draft.maker}
          choices={makers}
          freeText
          onPick={({ label }) => set({ maker: label })}
        />
        <TypeAhead
          label="Series"
          value={draft.series}
          choices={series}
          freeText
          onPick={({ label }) => set({ series: label })}
        />
        <TypeAhead
          label="Body"
          value={draft.bodyType}
          choices={bodies}
          freeText
          onPick={({ label }) => set({ bodyType: label })}
        />
        <YearField
          label="First sold in"
          value={draft.firstYear}
          onChange={year => set({ firstYear: year })}
        />
        <NumberInput
          label="Length, mm"
          value={draft.lengthMm ?? ''}
          min={1}
          hideControls
          onChange={length => set({ lengthMm: typeof length === 'number' ? length : null })}
        />
      </div>
      {(
        [
          ['materials', 'Materials'],
          ['markings', 'Markings on the base'],
          ['notes', 'Notes'],
        ] as const
      ).map(([key, label]) => (
        <NotesField key={key} label={label} value={draft[key]} onChange={text => set({ [key]: text })} />
      ))}
      <div className={classes.pair}>
        <TextInput
          label="Put together by"
          placeholder="two rivets …"
          maxLength={200}
          value={draft.assembly}
          onChange={event => set({ assembly: event.currentTarget.value })}
        />
        <Select
          label="Bearings of the axles"
          placeholder="not known"
          clearable
          clearButtonProps={{ 'aria-label': 'Bearings not known' }}
          data={['open', 'captive']}
          value={draft.bearings || null}
          onChange={bearings => set({ bearings: (bearings ?? '') as CastingDraft['bearings'] })}
        />
      </div>
      <PartDetails parts={draft.parts} onChange={parts => set({ parts })} />
      <FeatureValues
        known={casting?.featureValues ?? []}
        changed={draft.featureValues}
        onChange={featureValues => set({ featureValues })}
      />
      <FormFoot
        submit={casting ? 'Save' : 'Add the casting'}
        disabled={!whole}
        loading={save.isPending}
        onClose={onClose}
      />
    </form>
  );
};

/** The form of a casting beside the page: a new one, or one that is changed. */
export const CastingForm = ({
  opened,
  casting = null,
  castings,
  onClose,
  onSaved = () => undefined,
}: {
  opened: boolean;
  casting?: CastingPage | null;
  castings: readonly CastingRow[];
  onClose: () => void;
  onSaved?: (id: number) => void;
}) => (
  <Drawer
    opened={opened}
    onClose={onClose}
    position="right"
    size={440}
    title={casting ? `Edit ${casting.name}` : 'Add a casting'}
    closeButtonProps={{ 'aria-label': 'Close' }}
  >
    <Form casting={casting} castings={castings} onClose={onClose} onSaved={onSaved} />
  </Drawer>
);
