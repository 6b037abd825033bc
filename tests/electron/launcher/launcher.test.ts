import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { type AddressInfo, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decodeHeic } from '../../../db/photos/heic.ts';
import { type Surroundings, windowObstacle } from '../../../electron/launcher/choose-host.ts';
import { findElectron } from '../../../electron/launcher/find-electron.ts';
import { bundledFiles } from '../../../electron/service/bundled-files.ts';
import { heicFile } from '../../helpers/pictures/pictures.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const say = () => undefined;

describe('what stands against a window', () => {
  const here: Surroundings = { platform: 'linux', env: { DISPLAY: ':0' }, isRoot: false, noSandbox: false };
  it('is nothing on a desktop', () => {
    expect(windowObstacle(here)).toBeNull();
    expect(windowObstacle({ ...here, env: { WAYLAND_DISPLAY: 'wayland-0' } })).toBeNull();
    expect(windowObstacle({ ...here, platform: 'darwin', env: {} })).toBeNull();
  });
  it('is the want of a display, and it says so', () => {
    expect(windowObstacle({ ...here, env: {} })).toContain('no display');
    expect(windowObstacle({ ...here, env: { DISPLAY: '' } })).toContain('no display');
  });
  it('is being root, unless the user gives the sandbox up', () => {
    const sentence = windowObstacle({ ...here, isRoot: true });
    expect(sentence).toContain('root');
    expect(sentence).toContain('--no-sandbox');
    expect(windowObstacle({ ...here, isRoot: true, noSandbox: true })).toBeNull();
  });
});

describe('the Electron that is found', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'electron-'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));
  it('is the one that the environment names', async () => {
    const name = { darwin: 'Electron.app/Contents/MacOS/Electron', win32: 'electron.exe' }[
      process.platform as string
    ];
    const program = join(folder, name ?? 'electron');
    mkdirSync(join(program, '..'), { recursive: true });
    writeFileSync(program, '');
    chmodSync(program, 0o755);
    expect(await findElectron({ ELECTRON_OVERRIDE_DIST_PATH: folder }, say)).toEqual({ path: program });
  });
  it('is missed with its reason where the environment is wrong', async () => {
    const nowhere = join(folder, 'nowhere');
    expect(await findElectron({ ELECTRON_OVERRIDE_DIST_PATH: nowhere }, say)).toEqual({
      missing: `there is no Electron in ${nowhere}`,
    });
  });
});

describe('npm start', () => {
  let home: string;
  beforeAll(() => {
    home = mkdtempSync(join(tmpdir(), 'start-'));
  });
  afterAll(() => rmSync(home, { recursive: true, force: true }));

  interface Said {
    code: number | null;
    text: string;
  }
  /** Runs the launcher, and interrupts it as soon as it has printed an address. */
  const start = (args: string[], env: Record<string, string> = {}): Promise<Said> =>
    new Promise(resolve => {
      const child = spawn(process.execPath, ['electron/launcher/begin.mjs', ...args], {
        cwd: root,
        env: { ...process.env, HOME: home, XDG_CONFIG_HOME: home, INIT_CWD: home, ...env },
      });
      let text = '';
      const read = (chunk: Buffer) => {
        text += chunk;
        if (text.includes('#code=')) child.kill('SIGINT');
      };
      child.stdout.on('data', read);
      child.stderr.on('data', read);
      child.on('exit', code => resolve({ code, text }));
    });

  it('serves to the browser where there is no display, saying what is missing', async () => {
    const { code, text } = await start(['--no-open'], { DISPLAY: '', WAYLAND_DISPLAY: '' });
    if (process.platform === 'linux') expect(text).toContain('There is no display here');
    expect(text).toMatch(/http:\/\/127\.0\.0\.1:\d+\/#code=[\w-]{22}\n/);
    expect(text).toContain('Closing the collection');
    expect(code).toBe(0);
  });
  it('says when Electron itself is missing', async () => {
    const { code, text } = await start(['--no-open', '--no-sandbox'], {
      DISPLAY: ':99',
      ELECTRON_OVERRIDE_DIST_PATH: join(home, 'nowhere'),
    });
    expect(text).toContain(`Electron cannot be had here: there is no Electron in ${join(home, 'nowhere')}`);
    expect(code).toBe(0);
  });
  it('takes a folder from where it was called, and makes nothing in it unasked', async () => {
    const { code, text } = await start(['--browser', '--no-open', '--collection', 'Mine']);
    expect(text).not.toContain('display');
    expect(code).toBe(0);
    expect(existsSync(join(home, 'Mine'))).toBe(false);
  });
  it('serves with --sources too, as developers may want it', async () => {
    const { code, text } = await start(['--browser', '--no-open', '--sources']);
    expect(text).toMatch(/http:\/\/127\.0\.0\.1:\d+\/#code=[\w-]{22}\n/);
    expect(code).toBe(0);
  });
  it('says in a sentence that a port is taken, and closes the collection', async () => {
    const other = createServer().listen(0, '127.0.0.1');
    await once(other, 'listening');
    const { port } = other.address() as AddressInfo;
    const { code, text } = await start(['--browser', '--no-open', '--port', String(port)]);
    other.close();
    expect(text).toMatch(new RegExp(`^Port ${port} is taken by another program\\. .*--port.*$`, 'm'));
    expect(text).not.toMatch(/^ +at /m);
    expect(code).toBe(1);
  });
  it.each([['--frobnicate'], ['--port', 'many'], ['stray']])('is wrong with 2: %s', async (...words) => {
    const { code, text } = await start(words);
    expect(code).toBe(2);
    expect(text).toContain('npm start --');
  });
});

describe('what was built of the browser host', () => {
  it('has its workers beside it, and that of HEIC decodes as from the sources', async () => {
    const { workers } = bundledFiles(join(root, 'dist/electron'));
    for (const file of Object.values(workers)) expect(existsSync(file), file.pathname).toBe(true);
    for (const name of ['turned', 'mirrored', 'wide-colours'] as const) {
      const bytes = heicFile(name);
      expect((await decodeHeic(bytes, workers.heic)).equals(await decodeHeic(bytes)), name).toBe(true);
    }
  });
  it('names the sources in the trace of a fault', async () => {
    const bundle = join(root, 'dist/electron/browser.cjs');
    const fault = `process.setSourceMapsEnabled(true); require(${JSON.stringify(bundle)}).serveBrowser({})`;
    const child = spawn(process.execPath, ['--eval', fault], { stdio: ['ignore', 'ignore', 'pipe'] });
    let said = '';
    child.stderr.on('data', (chunk: Buffer) => {
      said += chunk;
    });
    const [code] = await once(child, 'close');
    expect(code).toBe(1);
    expect(said).toMatch(/serveBrowser \(.*electron\/launcher\/serve-browser\.ts:\d+/);
  });
});
