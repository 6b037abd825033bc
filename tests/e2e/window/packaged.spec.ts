/** The packaged app, made from what is built with the Electron at hand. */
import { execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { Worker } from 'node:worker_threads';
import { FuseV1Options, getCurrentFuseWire } from '@electron/fuses';
import manifest from '../../../package.json' with { type: 'json' };
import { expect, test } from '../fixtures.ts';
import { electronProgram, root, windowSwitches } from '../hosts.ts';

/** The version that the Electron at hand says it is. */
const electronVersion = async (): Promise<string> => {
  const { stdout } = await promisify(execFile)(electronProgram(), ['-p', 'process.versions.electron'], {
    env: { ...process.env, ELECTRON_RUN_AS_NODE: '1' },
  });
  return stdout.trim();
};

/** The fuse for the privileges of `file:` came with Electron 29; an older one cannot be given it. */
const isOld = (version: string): boolean => Number(version.split('.')[0]) < 29;

const packageInto = async (folder: string, version: string): Promise<string> => {
  const { grantFileProtocolExtraPrivileges, ...fuses } = manifest.build.electronFuses;
  const config = join(folder, 'builder.json');
  writeFileSync(
    config,
    JSON.stringify({
      ...manifest.build,
      directories: { output: join(folder, 'packages') },
      electronDist: dirname(electronProgram()),
      electronVersion: version,
      electronFuses: isOld(version) ? fuses : { ...fuses, grantFileProtocolExtraPrivileges },
    }),
  );
  const builder = join(root, 'node_modules/electron-builder/cli.js');
  await promisify(execFile)(
    process.execPath,
    [builder, '--linux', 'dir', '--publish', 'never', '--config', config],
    { cwd: root },
  );
  return join(folder, 'packages/linux-unpacked', manifest.name);
};

const freePort = (): Promise<number> =>
  new Promise(resolve => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });

/** The page's own account of itself, asked over Chromium's debugging port, which needs no inspector. */
const askPage = async (port: number, expression: string): Promise<unknown> => {
  const listed = await fetch(`http://127.0.0.1:${port}/json/list`);
  const pages = (await listed.json()) as { type: string; webSocketDebuggerUrl: string }[];
  const page = pages.find(({ type }) => type === 'page');
  if (!page) throw new Error('There is no page yet.');
  const socket = new WebSocket(page.webSocketDebuggerUrl);
  try {
    return await new Promise((resolve, reject) => {
      socket.onerror = () => reject(new Error('The page cannot be reached.'));
      // While its document is being replaced, a page answers with an error: it has nowhere to look yet.
      socket.onmessage = ({ data }) => {
        const { result, error } = JSON.parse(String(data));
        if (result) resolve(result.result.value);
        else reject(new Error(error?.message ?? 'The page said nothing.'));
      };
      socket.onopen = () =>
        socket.send(JSON.stringify({ id: 1, method: 'Runtime.evaluate', params: { expression } }));
    });
  } finally {
    socket.close();
  }
};

test('carries its fuses, and shows the screens out of its archive', async ({ home, collection }) => {
  const version = await electronVersion();
  const program = await packageInto(home, version);

  const { version: _version, resetAdHocDarwinSignature: _reset, ...wire } = await getCurrentFuseWire(program);
  // The wire holds a character for each fuse.
  const isOn = (fuse: FuseV1Options) => Reflect.get(wire, fuse) === '1'.charCodeAt(0);
  expect({
    runAsNode: isOn(FuseV1Options.RunAsNode),
    nodeOptions: isOn(FuseV1Options.EnableNodeOptionsEnvironmentVariable),
    inspect: isOn(FuseV1Options.EnableNodeCliInspectArguments),
    onlyFromArchive: isOn(FuseV1Options.OnlyLoadAppFromAsar),
    integrity: isOn(FuseV1Options.EnableEmbeddedAsarIntegrityValidation),
  }).toEqual({
    runAsNode: false,
    nodeOptions: false,
    inspect: false,
    onlyFromArchive: true,
    integrity: true,
  });
  // And every other one as package.json says.
  const { grantFileProtocolExtraPrivileges, ...fuses } = manifest.build.electronFuses;
  const said = isOld(version) ? fuses : { ...fuses, grantFileProtocolExtraPrivileges };
  const read = Object.keys(said).map(name => {
    const fuse = Reflect.get(FuseV1Options, name.charAt(0).toUpperCase() + name.slice(1)) as FuseV1Options;
    expect(fuse, name).toBeDefined();
    return [name, isOn(fuse)];
  });
  expect(Object.fromEntries(read)).toEqual(said);

  // No inspector can be attached to it any more, so the page is reached through Chromium's own port.
  const port = await freePort();
  const child = spawn(
    program,
    [
      ...windowSwitches(),
      `--user-data-dir=${join(home, 'profile')}`,
      `--remote-debugging-port=${port}`,
      `--collection=${collection}`,
    ],
    { env: { ...process.env, HOME: home, ELECTRON_RUN_AS_NODE: '1' }, stdio: 'ignore' },
  );
  try {
    const shown = `location.href + ' ' + (document.getElementById('root').childElementCount > 0)`;
    await expect.poll(() => askPage(port, shown).catch(String)).toMatch(/^app:\/\/playworn\/\S* true$/);
  } finally {
    child.kill('SIGKILL');
  }
  const outside = join(program, '../resources/app.asar.unpacked');
  const unpacked = join(outside, 'node_modules');
  // Libraries that the system's loader opens cannot lie inside the archive.
  const libraries = readdirSync(unpacked, { recursive: true }).map(String).join();
  expect(libraries).toMatch(/better-sqlite3\S*\.node/);
  expect(libraries).toMatch(/libvips-cpp\.so/);
  expect(libraries).toMatch(/typst-ts-node-compiler\S*\.node/);

  // The decoder of HEIC as it is packed finds its WebAssembly there, away from the folder that it was built in.
  const photograph = readFileSync(join(root, 'tests/fixtures/photographs/turned.heic'));
  const decoder = new Worker(join(outside, 'dist/electron/heic-worker.mjs'), { workerData: photograph });
  const [picture] = await once(decoder, 'message');
  await decoder.terminate();
  expect(picture).toMatchObject({ kind: 'decoded', channels: 3 });
  expect(picture.samples).toHaveLength(3 * picture.width * picture.height);
});
