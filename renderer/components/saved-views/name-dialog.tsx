import { Button, Group, Modal, TextInput } from '@mantine/core';
import { type FormEvent, useState } from 'react';

/** Asks for the name of a view or of a set. */
export const NameDialog = ({
  title,
  says,
  begin,
  verb,
  taken,
  of = 'view',
  busy,
  onName,
  onClose,
}: {
  title: string;
  says: string;
  begin: string;
  verb: string;
  /** The names of the others. */
  taken: readonly string[];
  of?: 'view' | 'set';
  busy: boolean;
  onName: (name: string) => void;
  onClose: () => void;
}) => {
  const [name, setName] = useState(begin);
  const isTaken = taken.some(other => other.toLowerCase() === name.trim().toLowerCase());
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() && !isTaken) onName(name.trim());
  };
  return (
    <Modal opened onClose={onClose} title={title} size="sm">
      <form onSubmit={submit}>
        <TextInput
          label="Name"
          description={says}
          data-autofocus
          value={name}
          maxLength={200}
          error={isTaken ? `Another ${of} has this name.` : undefined}
          onChange={event => setName(event.currentTarget.value)}
        />
        <Group justify="flex-end" mt="md">
          <Button onClick={onClose}>Cancel</Button>
          <Button type="submit" variant="filled" disabled={!name.trim() || isTaken} loading={busy}>
            {verb}
          </Button>
        </Group>
      </form>
    </Modal>
  );
};
