import { EventEmitter, on } from 'node:events';
import { type BrowserWindow, dialog, shell } from 'electron';
import type { NativeShell, ShellCommand } from '../api/shell.ts';
import { openExternal } from './lock-down.ts';

/** Lets the menu speak to whichever document the window shows. */
export class CommandLine {
  private readonly emitter = new EventEmitter<{ command: [ShellCommand] }>();

  send(command: ShellCommand): void {
    this.emitter.emit('command', command);
  }

  async *listen(signal?: AbortSignal): AsyncGenerator<ShellCommand, void, void> {
    try {
      for await (const [command] of on(this.emitter, 'command', signal ? { signal } : {})) yield command;
    } catch (error) {
      if (!signal?.aborted) throw error;
    }
  }
}

/** Asks for a folder; the dialog can make a new one. */
export const chooseFolder = async (window: BrowserWindow, title: string): Promise<string | null> => {
  const { canceled, filePaths } = await dialog.showOpenDialog(window, {
    title,
    properties: ['openDirectory', 'createDirectory', 'promptToCreate'],
  });
  return canceled ? null : (filePaths[0] ?? null);
};

/** What the screens can ask of the system, for one window. */
export const nativeShell = (window: BrowserWindow, commandLine: CommandLine): NativeShell => ({
  commands: signal => commandLine.listen(signal),
  chooseFolder: title => chooseFolder(window, title),
  openExternal,
  showFolder: async dir => shell.showItemInFolder(dir),
});
