import { join } from 'node:path';
import { RPCHandler } from '@orpc/server/message-port';
import { app, type BrowserWindow, dialog, MessageChannelMain, session } from 'electron';
import { connectChannel, portChannel } from '../api/channels.ts';
import { createShell } from '../api/shell.ts';
import { type DataService, startDataService } from './data-service.ts';
import { lockDown } from './lock-down.ts';
import { setMenu } from './menu.ts';
import { CommandLine, chooseFolder, nativeShell } from './native-shell.ts';
import { registerScreensScheme, serveScreens } from './screens-scheme.ts';
import { profileName, startOptions } from './start-options.ts';
import { onTrustedMessage } from './trusted-sender.ts';
import { openWindow } from './window.ts';

const built = (...parts: string[]) => join(app.getAppPath(), 'dist', ...parts);
const options = startOptions(process.argv.slice(1));
const profile = profileName(options);
const commandLine = new CommandLine();
let window: BrowserWindow | undefined;
let service: DataService;

const startService = (): void => {
  const bundle = built('electron');
  service = startDataService(join(bundle, 'service.cjs'), { ...options, bundle }, async code => {
    const { response } = await dialog.showMessageBox({
      type: 'error',
      message: 'The data service stopped',
      detail: `It ended with code ${code ?? 'unknown'}. Everything saved is safe.`,
      buttons: ['Start It Again', 'Quit'],
      cancelId: 1,
    });
    if (response === 1) return app.quit();
    startService();
    window?.reload();
  });
};

/** Each document gets channels of its own; those of the document before it close with it. */
const handOverPorts = (): void =>
  onTrustedMessage(
    connectChannel,
    () => window?.webContents.mainFrame,
    (_event, frame) => {
      if (!window) return;
      const data = new MessageChannelMain();
      const shell = new MessageChannelMain();
      service.connect(data.port1);
      new RPCHandler(createShell(nativeShell(window, commandLine))).upgrade(shell.port1);
      shell.port1.start();
      frame.postMessage(portChannel, null, [data.port2, shell.port2]);
    },
  );

const show = (): void => {
  window = openWindow(built('electron', 'preload.cjs'));
  window.on('closed', () => {
    window = undefined;
  });
  setMenu({
    send: command => commandLine.send(command),
    sendWithFolder: async (command, title) => {
      const dir = window && (await chooseFolder(window, title));
      if (dir) commandLine.send({ command, dir });
    },
  });
};

const start = async (): Promise<void> => {
  await app.whenReady();
  lockDown();
  serveScreens(session.defaultSession, built('renderer'));
  handOverPorts();
  // The page takes longer to come up than the service.
  show();
  startService();
};

registerScreensScheme();
// Enabling the sandbox overrides `--no-sandbox`, which root has to pass: every process would
// then refuse to run.
if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox();
if (profile) app.setPath('userData', join(app.getPath('userData'), 'collections', profile));
if (app.requestSingleInstanceLock()) {
  app.on('second-instance', () => {
    if (window?.isMinimized()) window.restore();
    window?.focus();
  });
  app.on('window-all-closed', () => app.quit());
  let closed = false;
  app.on('will-quit', event => {
    if (closed || !service) return;
    event.preventDefault();
    void service.close().then(code => {
      closed = true;
      if (code === 0) app.quit();
      else app.exit(code ?? 1);
    });
  });
  void start();
} else app.quit();
