/**
 * What the native window adds to the screens: its menu's commands, and dialogs of the system.
 * Only in the window.
 */
import { os } from '@orpc/server';
import { z } from 'zod';

/**
 * Chosen in the native menu, carried out by the screens; a folder has been chosen already
 * where one is needed.
 */
export type ShellCommand =
  | { command: 'new-collection'; dir: string }
  | { command: 'open-collection'; dir: string }
  | { command: 'import' | 'export-report' | 'back-up' | 'undo' | 'redo' | 'search' | 'show-keys' }
  | { command: 'go'; to: string };

export interface NativeShell {
  /** Every command from now on, until the signal aborts. */
  commands(signal: AbortSignal | undefined): AsyncGenerator<ShellCommand, void, void>;
  /** The folder that the user chose, or null. */
  chooseFolder(title: string): Promise<string | null>;
  /** Opens a page in the system's browser. */
  openExternal(url: string): Promise<void>;
  /** Shows a folder in the system's file manager. */
  showFolder(dir: string): Promise<void>;
}

const httpsUrl = z.url({ protocol: /^https$/ }).max(2000);

export const createShell = (native: NativeShell) => ({
  commands: os.handler(({ signal }) => native.commands(signal)),
  chooseFolder: os
    .input(z.object({ title: z.string().max(200) }))
    .handler(({ input }) => native.chooseFolder(input.title)),
  openExternal: os.input(z.object({ url: httpsUrl })).handler(({ input }) => native.openExternal(input.url)),
  showFolder: os
    .input(z.object({ dir: z.string().min(1).max(4000) }))
    .handler(({ input }) => native.showFolder(input.dir)),
});

export type Shell = ReturnType<typeof createShell>;
