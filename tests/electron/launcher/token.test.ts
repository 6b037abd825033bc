import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../..', import.meta.url));

/** What everybody on this machine can read of the processes that run: their command lines. */
const processList = (): string => {
  if (process.platform !== 'linux')
    return execFileSync('ps', ['-axww', '-o', 'command'], { encoding: 'utf8' });
  return readdirSync('/proc')
    .filter(name => /^\d+$/.test(name))
    .map(pid => {
      try {
        return readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ');
      } catch {
        return ''; // Ended meanwhile.
      }
    })
    .join('\n');
};

/** The environment that a process was started with, as whoever runs it can read it. */
const environmentOf = (pid: number): string =>
  process.platform === 'linux'
    ? readFileSync(`/proc/${pid}/environ`, 'utf8')
    : execFileSync('ps', ['eww', '-p', String(pid)], { encoding: 'utf8' });

// Windows has no ps; its process list is not read here.
describe.skipIf(process.platform === 'win32')('the token of a running host', () => {
  let home: string;
  let host: ChildProcess;
  let said = '';
  let token: string;
  let origin: string;
  beforeAll(async () => {
    home = mkdtempSync(join(tmpdir(), 'token-'));
    host = spawn(process.execPath, ['electron/launcher/begin.mjs', '--browser', '--no-open'], {
      cwd: root,
      env: { ...process.env, HOME: home, XDG_CONFIG_HOME: home, INIT_CWD: home },
    });
    const address = await new Promise<URL>((resolve, reject) => {
      const read = (chunk: Buffer) => {
        said += chunk;
        const [found] = /http:\/\/127\.0\.0\.1:\d+\/#code=[\w-]{22}(?=\n)/.exec(said) ?? [];
        if (found) resolve(new URL(found));
      };
      host.stdout?.on('data', read);
      host.stderr?.on('data', read);
      host.once('exit', code => reject(new Error(`The host ended with ${code}: ${said}`)));
    });
    origin = address.origin;
    const answer = await fetch(`${origin}/session`, {
      method: 'POST',
      headers: { origin, 'content-type': 'application/json' },
      body: JSON.stringify({ code: address.hash.replace('#code=', '') }),
    });
    ({ token } = await answer.json());
  });
  afterAll(async () => {
    if (host.exitCode === null) {
      const ended = new Promise(resolve => host.once('exit', resolve));
      host.kill('SIGINT');
      await ended;
    }
    rmSync(home, { recursive: true, force: true });
  });

  const call = (path: string, body: string, given = token) =>
    fetch(`${origin}${path}`, {
      method: 'POST',
      headers: { origin, 'content-type': 'application/json', 'x-playworn-token': given },
      body,
    }).then(answer => answer.status);

  it('opens the API', async () => {
    expect(token).toMatch(/^[\w-]{22}$/);
    expect(await call('/rpc/collection/state', '{}')).toBe(200);
  });

  it('is in no command line and in no environment', () => {
    const list = processList();
    expect(list).toContain('electron/launcher/begin.mjs --browser --no-open');
    expect(list).not.toContain(token);
    const environment = environmentOf(host.pid ?? 0);
    expect(environment).toContain(home);
    expect(environment).not.toContain(token);
  });

  it('is in nothing that the host prints, not even of calls that go wrong', async () => {
    expect(await call('/rpc/collection/state', '{"json":')).toBeGreaterThanOrEqual(400);
    expect(await call('/rpc/nothing', '{}')).toBe(404);
    expect(await call('/rpc/collection/state', '{}', `${token}x`)).toBe(401);
    const ended = new Promise(resolve => host.once('close', resolve));
    host.kill('SIGINT');
    await ended;
    expect(said).toContain('Closing the collection');
    expect(said).not.toContain(token);
  });
});
