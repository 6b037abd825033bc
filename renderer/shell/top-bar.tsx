import { ActionIcon, Menu, Tooltip, useMantineColorScheme } from '@mantine/core';
import { useNotifications } from '@mantine/notifications';
import { IconArrowBackUp, IconArrowForwardUp, IconDots, IconSearch } from '@tabler/icons-react';
import { useQuery } from '@tanstack/react-query';
import { useLocation } from 'wouter';
import { sentenceCase } from '../../valuation/wording/reader.ts';
import { api } from '../api/client.ts';
import { useUndo } from '../components/actions/use-undo.ts';
import { KeyHint } from '../components/keys/key-hint.tsx';
import { useKeys } from '../components/keys/use-keys.ts';
import { readerWords } from '../components/words.ts';
import { CollectionMenu } from './collection-menu.tsx';
import { openSearch } from './search-everything.tsx';
import classes from './shell.module.css';

const schemes = [
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
  { value: 'auto', label: 'As the system' },
] as const;

/** The newest action that can be taken back, and the one that can be done again. */
const useHistoryEnds = () => {
  const { data = [] } = useQuery({ queryKey: ['history'], queryFn: () => api.collection.history() });
  return {
    undoable: data.find(entry => !entry.undone)?.label ?? null,
    redoable: data.findLast(entry => entry.undone)?.label ?? null,
  };
};

const HistoryButtons = () => {
  const { undo, redo } = useUndo();
  const { undoable, redoable } = useHistoryEnds();
  useKeys('Everywhere', [
    { keys: 'mod+Z', does: 'Undo', run: () => void undo() },
    { keys: 'mod+shift+Z mod+Y', does: 'Redo', run: () => void redo() },
  ]);
  return (
    <>
      <Tooltip label={undoable ? `Undo: ${readerWords().action(undoable)}` : 'Nothing to undo'}>
        <ActionIcon aria-label="Undo" data-idle={!undoable || undefined} onClick={() => void undo()}>
          <IconArrowBackUp size={18} stroke={1.6} />
        </ActionIcon>
      </Tooltip>
      <Tooltip label={redoable ? `Redo: ${readerWords().action(redoable)}` : 'Nothing to redo'}>
        <ActionIcon aria-label="Redo" data-idle={!redoable || undefined} onClick={() => void redo()}>
          <IconArrowForwardUp size={18} stroke={1.6} />
        </ActionIcon>
      </Tooltip>
    </>
  );
};

const MoreMenu = ({ onKeys }: { onKeys: () => void }) => {
  const { colorScheme, setColorScheme } = useMantineColorScheme();
  const [, navigate] = useLocation();
  return (
    <Menu position="bottom-end" width={240}>
      <Menu.Target>
        <ActionIcon aria-label="More">
          <IconDots size={18} stroke={1.6} />
        </ActionIcon>
      </Menu.Target>
      <Menu.Dropdown>
        <Menu.Label>{sentenceCase(readerWords().dialect.colours)}</Menu.Label>
        {schemes.map(({ value, label }) => (
          <Menu.Item
            key={value}
            rightSection={colorScheme === value ? '✓' : null}
            aria-checked={colorScheme === value}
            role="menuitemradio"
            onClick={() => setColorScheme(value)}
          >
            {label}
          </Menu.Item>
        ))}
        <Menu.Divider />
        <Menu.Item rightSection={<KeyHint keys="?" />} onClick={onKeys}>
          Keyboard shortcuts
        </Menu.Item>
        <Menu.Item onClick={() => navigate('/how-values-are-estimated')}>How values are estimated</Menu.Item>
      </Menu.Dropdown>
    </Menu>
  );
};

/** Search, the collection, undo and redo, and what is needed rarely. */
export const TopBar = ({ onKeys }: { onKeys: () => void }) => {
  useKeys('Everywhere', [
    { keys: 'mod+K /', does: 'Search everything', run: openSearch },
    { keys: '?', does: 'Keyboard shortcuts', run: onKeys },
  ]);
  const { notifications } = useNotifications();
  return (
    // Whether a notice is up is said here: a rule that looks for one in the page is tried at each change of a list.
    <header className={classes.bar} data-notice={notifications.length > 0 || undefined}>
      <button type="button" className={classes.search} onClick={openSearch}>
        <IconSearch size={15} stroke={1.8} />
        <span className={classes.searchLabel}>Search everything</span>
        <span className={classes.searchKey}>
          <KeyHint keys="mod+K" />
        </span>
      </button>
      <div className={classes.barEnd}>
        <CollectionMenu />
        <span className={classes.history}>
          <HistoryButtons />
        </span>
        <MoreMenu onKeys={onKeys} />
      </div>
    </header>
  );
};
