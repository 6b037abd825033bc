import { Button, Group, Menu, Modal, TextInput } from '@mantine/core';
import { IconChevronDown } from '@tabler/icons-react';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { api } from '../api/client.ts';
import { shell } from '../api/connect.ts';
import { errorSentence, refusalReason } from '../api/error-sentence.ts';
import { useEntry } from '../api/use-entry.ts';
import { useSummary } from '../api/use-summary.ts';
import { useAction } from '../components/actions/use-action.ts';
import { dateText } from '../components/format.ts';
import { places } from '../components/layout/places.ts';
import { showNotice, showProblem } from '../components/notices/undo-notice.tsx';
import classes from './shell.module.css';

const FolderField = ({ value, onChange }: { value: string; onChange: (dir: string) => void }) => {
  const { data: native } = useQuery({ queryKey: ['shell'], queryFn: () => shell, meta: { immutable: true } });
  return (
    <Group align="flex-end" wrap="nowrap">
      <TextInput
        style={{ flex: 1 }}
        label="Folder of the collection"
        description="The folder that holds collection.sqlite"
        data-autofocus
        value={value}
        onChange={event => onChange(event.currentTarget.value)}
      />
      {native ? (
        <Button
          onClick={async () => {
            const dir = await native.chooseFolder({ title: 'Folder of the collection' });
            if (dir) onChange(dir);
          }}
        >
          Choose …
        </Button>
      ) : null}
    </Group>
  );
};

const OpenAnother = ({ opened, onClose }: { opened: boolean; onClose: () => void }) => {
  const [dir, setDir] = useState('');
  const [, navigate] = useLocation();
  const open = useEntry(
    () => api.collection.open({ dir: dir.trim() }),
    () => {
      onClose();
      navigate('/');
    },
    error => {
      if (refusalReason(error) === 'missing')
        return showProblem('That folder could not be opened', errorSentence(error));
      onClose();
      navigate(places.recovery);
    },
  );
  return (
    <Modal opened={opened} onClose={onClose} title="Open another collection">
      <form
        onSubmit={event => {
          event.preventDefault();
          if (dir.trim()) open.mutate();
        }}
      >
        <FolderField value={dir} onChange={setDir} />
        <Group justify="flex-end" mt="lg">
          <Button onClick={onClose}>Cancel</Button>
          <Button type="submit" variant="filled" disabled={!dir.trim()} loading={open.isPending}>
            Open
          </Button>
        </Group>
      </form>
    </Modal>
  );
};

/** Which collection is open, when it was last backed up, and the way to another. */
export const CollectionMenu = () => {
  const { data: summary } = useSummary();
  const [, navigate] = useLocation();
  const [opening, setOpening] = useState(false);
  const backUp = useAction(() => api.collection.backUp(), {
    label: 'Backed up',
    undoable: false,
    failure: 'The backup could not be made',
    onDone: ({ name }) => showNotice(`Backed up as ${name}`),
  });
  return (
    <>
      <Menu position="bottom-end" width={280}>
        <Menu.Target>
          <Button variant="subtle" color="gray" rightSection={<IconChevronDown size={14} stroke={1.8} />}>
            <span className={classes.collection}>
              {summary?.name || 'Collection'}
              {summary?.isDemo ? <span className={classes.tag}>demo</span> : null}
            </span>
          </Button>
        </Menu.Target>
        <Menu.Dropdown>
          {summary ? (
            <div className={classes.collectionFacts}>
              <div>{summary.dir}</div>
              <div>
                {summary.lastBackup?.at
                  ? `Last backed up ${dateText(summary.lastBackup.at)}`
                  : 'Not backed up yet'}
              </div>
            </div>
          ) : null}
          <Menu.Item onClick={() => backUp.mutate()}>Back up now</Menu.Item>
          <Menu.Item onClick={() => navigate('/settings')}>Settings and backups</Menu.Item>
          <Menu.Divider />
          <Menu.Item onClick={() => setOpening(true)}>Open another collection …</Menu.Item>
        </Menu.Dropdown>
      </Menu>
      <OpenAnother opened={opening} onClose={() => setOpening(false)} />
    </>
  );
};
