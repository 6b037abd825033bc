import { Modal, Select, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { CastingPage } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { NotesField } from '../../../components/inputs/notes-field.tsx';
import { YearField } from '../../../components/inputs/year-field.tsx';
import classes from '../reference.module.css';
import { FormFoot } from './form-foot.tsx';

type Release = CastingPage['releaseRows'][number];

const called = ({ name, year }: Release): string => (year === null ? name : `${name}, ${year}`);

const Form = ({
  casting,
  release,
  onClose,
}: {
  casting: CastingPage;
  release: Release;
  onClose: () => void;
}) => {
  const [draft, setDraft] = useState(release);
  const [same, setSame] = useState<string | null>(null);
  const set = (change: Partial<Release>) => setDraft(before => ({ ...before, ...change }));
  const save = useAction((input: Release) => api.reference.saveRelease(input), {
    label: input => `Release ${input.name} changed`,
    onDone: onClose,
  });
  const merge = useAction((into: number) => api.names.merge({ what: 'release', into, from: release.id }), {
    label: `${called(release)} merged`,
    onDone: onClose,
  });
  const others = casting.releaseRows.filter(other => other.id !== release.id);
  return (
    <form
      className={classes.form}
      onSubmit={event => {
        event.preventDefault();
        if (same !== null) merge.mutate(Number(same));
        else if (draft.name.trim()) save.mutate(draft);
      }}
    >
      <div className={classes.pair}>
        <TextInput
          label="Sold as"
          required
          data-autofocus
          maxLength={200}
          value={draft.name}
          onChange={event => set({ name: event.currentTarget.value })}
        />
        <YearField label="In the year" value={draft.year} onChange={year => set({ year })} />
      </div>
      <TextInput
        label="Changed part"
        description="What differs in the tooling from earlier releases"
        maxLength={200}
        value={draft.changedPart}
        onChange={event => set({ changedPart: event.currentTarget.value })}
      />
      <NotesField minRows={2} value={draft.notes} onChange={text => set({ notes: text })} />
      {others.length > 0 ? (
        <Select
          label="The same as"
          description="Its variations and cars become those of the other release"
          placeholder="a release of its own"
          clearable
          clearButtonProps={{ 'aria-label': 'A release of its own' }}
          value={same}
          data={others.map(other => ({ value: String(other.id), label: called(other) }))}
          onChange={setSame}
        />
      ) : null}
      <FormFoot
        submit={same === null ? 'Save' : 'Merge'}
        loading={save.isPending || merge.isPending}
        onClose={onClose}
      />
    </form>
  );
};

/** The form of a release; none is open without one. */
export const ReleaseForm = ({
  casting,
  release,
  onClose,
}: {
  casting: CastingPage;
  release: Release | null;
  onClose: () => void;
}) => (
  <Modal
    opened={release !== null}
    onClose={onClose}
    title={release ? `Release ${called(release)}` : ''}
    closeButtonProps={{ 'aria-label': 'Close' }}
  >
    {release ? <Form key={release.id} casting={casting} release={release} onClose={onClose} /> : null}
  </Modal>
);
