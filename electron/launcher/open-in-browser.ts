import { spawn } from 'node:child_process';

/** Asks the system to open an address. The address is printed in any case, so that a failure here costs nothing. */
export const openInBrowser = (address: string): void => {
  const [command, ...before] =
    ({ darwin: ['open'], win32: ['cmd', '/c', 'start', ''] } as Record<string, string[]>)[process.platform] ??
    (['xdg-open'] as const);
  if (!command) return;
  const child = spawn(command, [...before, address], { stdio: 'ignore', detached: true });
  child.on('error', () => undefined);
  child.unref();
};
