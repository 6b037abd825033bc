import { app, Menu, type MenuItemConstructorOptions } from 'electron';
import type { ShellCommand } from '../api/shell.ts';

export interface MenuActions {
  send(command: ShellCommand): void;
  /** Asks for a folder first, and sends the command with it. */
  sendWithFolder(command: 'new-collection' | 'open-collection', title: string): void;
}

type Item = MenuItemConstructorOptions;
const isMac = process.platform === 'darwin';
const separator: Item = { type: 'separator' };

/** Shown beside the item, but left to the screens to hear: in a text field the same keys undo typing. */
const shownKey = (accelerator: string): Item => ({ accelerator, registerAccelerator: false });

const fileMenu = ({ send, sendWithFolder }: MenuActions): Item => ({
  label: 'File',
  submenu: [
    {
      id: 'new-collection',
      label: 'New Collection…',
      click: () => sendWithFolder('new-collection', 'Folder of the new collection'),
    },
    {
      id: 'open-collection',
      label: 'Open Collection…',
      accelerator: 'CmdOrCtrl+O',
      click: () => sendWithFolder('open-collection', 'Folder of the collection'),
    },
    separator,
    { id: 'import', label: 'Import…', accelerator: 'CmdOrCtrl+I', click: () => send({ command: 'import' }) },
    { id: 'paste-sales', label: 'Paste Sales…', click: () => send({ command: 'go', to: '/sales/paste' }) },
    {
      id: 'export-report',
      label: 'Export Report…',
      accelerator: 'CmdOrCtrl+P',
      click: () => send({ command: 'export-report' }),
    },
    { id: 'back-up', label: 'Back Up Now', click: () => send({ command: 'back-up' }) },
    separator,
    isMac ? { role: 'close' } : { role: 'quit' },
  ],
});

const editMenu = ({ send }: MenuActions): Item => ({
  label: 'Edit',
  submenu: [
    { id: 'undo', label: 'Undo', ...shownKey('CmdOrCtrl+Z'), click: () => send({ command: 'undo' }) },
    { id: 'redo', label: 'Redo', ...shownKey('CmdOrCtrl+Shift+Z'), click: () => send({ command: 'redo' }) },
    separator,
    { role: 'cut' },
    { role: 'copy' },
    { role: 'paste' },
    { role: 'selectAll' },
    separator,
    { id: 'search', label: 'Search', ...shownKey('CmdOrCtrl+K'), click: () => send({ command: 'search' }) },
  ],
});

const viewMenu = ({ send }: MenuActions, screens: readonly (readonly [string, string])[]): Item => ({
  label: 'View',
  submenu: [
    ...screens.map(([label, to]): Item => ({ label, click: () => send({ command: 'go', to }) })),
    separator,
    { role: 'resetZoom' },
    { role: 'zoomIn' },
    { role: 'zoomOut' },
    separator,
    { role: 'togglefullscreen' },
    ...(app.isPackaged ? [] : [separator, { role: 'reload' }, { role: 'toggleDevTools' }]),
  ] as Item[],
});

const helpMenu = ({ send }: MenuActions): Item => ({
  role: 'help',
  submenu: [
    { id: 'show-keys', label: 'Keyboard Shortcuts', click: () => send({ command: 'show-keys' }) },
    {
      label: 'How Values Are Estimated',
      click: () => send({ command: 'go', to: '/how-values-are-estimated' }),
    },
    ...((isMac ? [] : [separator, { role: 'about' }]) as Item[]),
  ],
});

const screens = [
  ['Home', '/'],
  ['Lots', '/lots'],
  ['Cars', '/cars'],
  ['Reference', '/reference'],
  ['Sale Records', '/sales'],
  ['Decide', '/decide'],
  ['Bench', '/bench'],
  ['Reports', '/reports'],
  ['Settings', '/settings'],
] as const;

export const setMenu = (actions: MenuActions): void =>
  Menu.setApplicationMenu(
    Menu.buildFromTemplate([
      ...((isMac ? [{ role: 'appMenu' }] : []) as Item[]),
      fileMenu(actions),
      editMenu(actions),
      viewMenu(actions, screens),
      { role: 'windowMenu' },
      helpMenu(actions),
    ]),
  );
