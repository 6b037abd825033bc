/** How the system's browser is led in, and what everybody else on the machine can see of that. */
import { spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { writeEntryPage } from '../../../electron/launcher/entry-page.ts';
import { temporaryFolder } from '../../helpers/collections.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const mode = (path: string) => statSync(path).mode & 0o777;
const onUnix = process.platform !== 'win32';

describe('the page that leads a browser in', () => {
  it('is its owner’s alone, and goes with its folder', () => {
    const address = 'http://127.0.0.1:4100/#code=abc-DEF_123';
    const { url, remove } = writeEntryPage(address, temporaryFolder());
    const file = fileURLToPath(url);
    expect(url).not.toContain('abc-DEF_123');
    expect(readFileSync(file, 'utf8')).toContain(`content="0; url=${address}"`);
    if (onUnix) expect([mode(dirname(file)), mode(file)]).toEqual([0o700, 0o600]);
    remove();
    expect(existsSync(dirname(file))).toBe(false);
  });
});

/** A stand-in for the system's opener: notes what it was started with, and what stands in the page. */
const opener = `#!/bin/sh
umask > "$HOME/umask"
cp "\${1#file://}" "$HOME/page"
stat -c '%a' "\${1#file://}" "$(dirname "\${1#file://}")" > "$HOME/modes"
printf '%s\\n' "$@" > "$HOME/arguments.part"
mv "$HOME/arguments.part" "$HOME/arguments"
`;

// The opener has another name elsewhere, and cannot be stood in for by the path.
describe.skipIf(process.platform !== 'linux')('the browser that is opened', () => {
  it('is given no code that others could read, and comes in once; then the page is gone', async () => {
    const home = temporaryFolder();
    const bin = join(home, 'bin');
    mkdirSync(bin);
    writeFileSync(join(bin, 'xdg-open'), opener);
    chmodSync(join(bin, 'xdg-open'), 0o755);
    const pages = join(home, 'tmp');
    mkdirSync(pages);
    const host = spawn(process.execPath, ['electron/launcher/begin.mjs', '--browser'], {
      cwd: root,
      env: {
        ...process.env,
        HOME: home,
        TMPDIR: pages,
        XDG_CONFIG_HOME: home,
        INIT_CWD: home,
        PATH: `${bin}:${process.env.PATH}`,
      },
    });
    let said = '';
    const ended = new Promise<number | null>(resolve => host.once('exit', resolve));
    for (const stream of [host.stdout, host.stderr])
      stream.on('data', (chunk: Buffer) => {
        said += chunk;
      });
    try {
      const noted = (name: string) => readFileSync(join(home, name), 'utf8');
      await expect.poll(() => existsSync(join(home, 'arguments')), { timeout: 150_000 }).toBe(true);
      expect(noted('arguments')).toMatch(/^file:\/\/\S+\/open\.html\n$/);
      expect(noted('arguments')).not.toContain('code');
      expect(noted('modes')).toBe('600\n700\n');
      // The browser's own files are not made private by ours.
      expect(Number.parseInt(noted('umask'), 8)).toBe(process.umask());
      const address = new URL(/url=(\S+)"/.exec(noted('page'))?.[1] ?? '');
      expect(said).not.toContain(address.hash);
      const come = () =>
        fetch(`${address.origin}/session`, {
          method: 'POST',
          headers: { origin: address.origin, 'content-type': 'application/json' },
          body: JSON.stringify({ code: address.hash.replace('#code=', '') }),
        });
      expect((await come()).status).toBe(200);
      const page = fileURLToPath(noted('arguments').trim());
      expect(existsSync(dirname(page))).toBe(false);
      const before = said.length;
      expect((await come()).status).toBe(401);
      await expect
        .poll(() => said.slice(before))
        .toMatch(/used already[^\n]*\nPlayworn is also at http:\/\/127\.0\.0\.1:\d+\/#code=[\w-]{22}\n/);
    } finally {
      host.kill('SIGINT');
      expect(await ended).toBe(0);
      rmSync(home, { recursive: true, force: true });
    }
  });
});
