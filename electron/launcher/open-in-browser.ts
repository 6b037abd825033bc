import { spawn } from 'node:child_process';
import { asUsual } from '../service/private-files.ts';

/**
 * Asks the system to open an address, which everybody on the machine can then read. It is printed in any
 * case, so that a failure here costs nothing.
 */
export const openInBrowser = (address: string): void => {
  const [command, ...before] =
    ({ darwin: ['open'], win32: ['cmd', '/c', 'start', ''] } as Record<string, string[]>)[process.platform] ??
    (['xdg-open'] as const);
  if (!command) return;
  const child = asUsual(() => spawn(command, [...before, address], { stdio: 'ignore', detached: true }));
  child.on('error', () => undefined);
  child.unref();
};
