import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** An Electron that can be started, or the sentence that says why there is none. */
export type FoundElectron = { path: string } | { missing: string };

const binaryName = (): string =>
  ({ darwin: 'Electron.app/Contents/MacOS/Electron', win32: 'electron.exe' })[process.platform as string] ??
  'electron';

/**
 * Electron's package brings no binary; its own script downloads it at first use, from a host that may
 * be out of reach.
 */
const download = (script: string, seconds: number): Promise<string | null> =>
  new Promise(resolve => {
    const child = spawn(process.execPath, [script], { stdio: ['ignore', 'ignore', 'pipe'] });
    let said = '';
    child.stderr.on('data', (chunk: Buffer) => {
      said += chunk;
    });
    const timer = setTimeout(() => {
      said = `it took longer than ${seconds} seconds`;
      child.kill();
    }, seconds * 1000);
    child.on('close', code => {
      clearTimeout(timer);
      const reason = said.split('\n').find(line => line.trim() !== '') ?? `it ended with code ${code}`;
      resolve(code === 0 ? null : reason.trim());
    });
  });

/**
 * Looks where Electron's own package looks: the folder named by ELECTRON_OVERRIDE_DIST_PATH, else its own,
 * downloading what is not there yet.
 */
export const findElectron = async (
  env: NodeJS.ProcessEnv,
  say: (sentence: string) => void,
  seconds = 240,
): Promise<FoundElectron> => {
  const given = env.ELECTRON_OVERRIDE_DIST_PATH;
  if (given) {
    const path = join(given, binaryName());
    return existsSync(path) ? { path } : { missing: `there is no Electron in ${given}` };
  }
  let folder: string;
  try {
    folder = dirname(createRequire(import.meta.url).resolve('electron/package.json'));
  } catch {
    return { missing: 'its package is not installed (npm ci installs it)' };
  }
  const path = join(folder, 'dist', binaryName());
  if (existsSync(path)) return { path };
  say('Electron is not here yet; downloading it once …');
  const failure = await download(join(folder, 'install.js'), seconds);
  if (failure) return { missing: `its download failed (${failure})` };
  return existsSync(path) ? { path } : { missing: 'its download has no program for this system' };
};
