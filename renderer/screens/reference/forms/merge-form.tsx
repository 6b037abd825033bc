import { Checkbox, Modal } from '@mantine/core';
import { useCallback, useState } from 'react';
import type { CastingPage } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { TypeAhead } from '../../../components/inputs/type-ahead.tsx';
import classes from '../reference.module.css';
import { FormFoot } from './form-foot.tsx';

interface Other {
  id: number;
  name: string;
}

const Form = ({ casting, onClose }: { casting: CastingPage; onClose: () => void }) => {
  const [other, setOther] = useState<Other | null>(null);
  const [keepName, setKeepName] = useState(false);
  const { id, name } = casting;
  const choices = useCallback(
    async (text: string) =>
      (await api.names.near({ name, text, limit: 30 }))
        .filter(found => found.castingId !== id)
        .map(found => ({
          value: String(found.castingId),
          label: found.name,
          detail: [found.series, found.firstYear].filter(Boolean).join(' · '),
        })),
    [name, id],
  );
  const merge = useAction(
    (from: Other) => api.names.merge({ what: 'casting', into: id, from: from.id, keepName }),
    {
      label: from => `${from.name} merged into ${name}`,
      failure: 'The castings could not be merged',
      onDone: onClose,
    },
  );
  return (
    <form
      className={classes.form}
      onSubmit={event => {
        event.preventDefault();
        if (other) merge.mutate(other);
      }}
    >
      <TypeAhead
        label="The casting that is the same"
        placeholder="The nearest names come first"
        value={other?.name ?? ''}
        choices={choices}
        autoFocus
        onPick={choice => setOther({ id: Number(choice.value), name: choice.label })}
        onClear={() => setOther(null)}
      />
      <Checkbox
        label="Keep its name as that of a release"
        description="Otherwise the name was a spelling, and its releases are called like this casting."
        checked={keepName}
        onChange={event => setKeepName(event.currentTarget.checked)}
      />
      <p className={classes.alike}>
        {other
          ? `All cars, sale records, releases, variations and photographs of ${other.name} become those of ${name}. Undo separates them again.`
          : `Everything of the other casting becomes that of ${name}.`}
      </p>
      <FormFoot submit="Merge" disabled={!other} loading={merge.isPending} onClose={onClose} />
    </form>
  );
};

/** Makes another casting the same as this one. */
export const MergeForm = ({ opened, ...form }: { opened: boolean } & Parameters<typeof Form>[0]) => (
  <Modal
    opened={opened}
    onClose={form.onClose}
    title={`Merge into ${form.casting.name}`}
    closeButtonProps={{ 'aria-label': 'Close' }}
  >
    <Form {...form} />
  </Modal>
);
