import { type ChildProcess, fork } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createORPCClient } from '@orpc/client';
import { RPCLink } from '@orpc/client/message-port';
import type { RouterClient } from '@orpc/server';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { AppRouter } from '../../../electron/api/router.ts';
import { type FromService, leftUndone } from '../../../electron/service/messages.ts';

const file = fileURLToPath(new URL('../../../electron/service/service.ts', import.meta.url));

let folder: string;
let service: ChildProcess;

/** Speaks as the main process does for one page, and looks like that page's port to the API's client. */
const pagePort = (port: number) => {
  const heard: ((event?: { data: unknown }) => void)[] = [];
  service.on('message', (message: FromService) => {
    if (message.kind === 'data' && message.port === port)
      for (const listener of heard) listener({ data: message.data });
  });
  service.send({ kind: 'connect', port });
  return {
    on: (type: string, listener: (event?: { data: unknown }) => void) => {
      if (type === 'message') heard.push(listener);
    },
    postMessage: (data: unknown) => void service.send({ kind: 'data', port, data }),
  };
};
const client = (port: number): RouterClient<AppRouter> =>
  createORPCClient(new RPCLink({ port: pagePort(port) }));
const ended = () => new Promise<number | null>(resolve => service.once('exit', resolve));

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'service-'));
  const options = JSON.stringify({ collection: join(folder, 'Collection') });
  service = fork(file, [options], {
    serialization: 'advanced',
    stdio: ['inherit', 'inherit', 'pipe', 'ipc'],
  });
});
afterEach(() => {
  service.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

describe('the data service of a plain Node', () => {
  it('answers two pages over one line, bytes included, and closes its collection when asked', async () => {
    const [one, other] = [client(1), client(2)];
    expect(await one.collection.state()).toMatchObject({ open: false, host: 'window' });
    await one.collection.create({ reportingCurrency: 'USD' });
    const { id } = await one.lots.create({ name: 'Barn tin', currency: 'USD' });
    expect(await other.lots.list()).toMatchObject([{ id, name: 'Barn tin' }]);

    const rows = 'inventory_number,casting\nA-1,Thornby\n';
    const steps = [];
    for await (const step of await other.imports.run({
      file: new File([rows], 'lot.csv'),
      as: 'lot',
      lotId: id,
    }))
      steps.push(step);
    expect(steps.at(-1)).toMatchObject({ type: 'done', result: { accepted: 1 } });

    const mark = join(folder, 'Collection', 'collection.open');
    expect(existsSync(mark)).toBe(true);
    const exit = ended();
    service.send({ kind: 'close' });
    expect(await exit).toBe(0);
    expect(existsSync(mark)).toBe(false);
  });

  it('closes its collection when its host is gone, and not for a Ctrl+C meant for the host', async () => {
    await client(1).collection.create({ reportingCurrency: 'USD' });
    const mark = join(folder, 'Collection', 'collection.open');
    service.kill('SIGINT');
    expect(await client(2).collection.state()).toMatchObject({ open: true });
    const exit = ended();
    service.disconnect();
    expect(await exit).toBe(0);
    expect(existsSync(mark)).toBe(false);
  });

  it('closes whole though it is interrupted meanwhile, with the backup of what was changed', async () => {
    await client(1).collection.create({ reportingCurrency: 'USD' });
    await client(2).lots.create({ name: 'Barn tin', currency: 'USD' });
    const exit = ended();
    service.send({ kind: 'close' });
    for (const signal of ['SIGINT', 'SIGINT'] as const) service.kill(signal);
    expect(await exit).toBe(0);
    expect(existsSync(join(folder, 'Collection', 'collection.open'))).toBe(false);
    const [backup, ...more] = readdirSync(join(folder, 'Collection', 'backups'));
    expect(more).toEqual([]);
    expect(existsSync(join(folder, 'Collection', 'backups', backup!, 'manifest.json'))).toBe(true);
  });

  it('says that no backup was made on closing, and ends with a code of its own', async () => {
    await client(1).collection.create({ reportingCurrency: 'USD' });
    await client(2).lots.create({ name: 'Barn tin', currency: 'USD' });
    const backups = join(folder, 'Collection', 'backups');
    rmSync(backups, { recursive: true, force: true });
    writeFileSync(backups, 'not a folder');
    let said = '';
    service.stderr!.on('data', chunk => {
      said += chunk;
    });
    const exit = ended();
    service.send({ kind: 'close' });
    expect(await exit).toBe(leftUndone);
    expect(said).toContain('No backup was made on closing');
  });

  it('stops long work that a page has left', async () => {
    const api = client(1);
    await api.collection.create({ reportingCurrency: 'USD' });
    const lines = Array.from({ length: 60_000 }, (_, i) => `S-${i},Casting ${i % 50}`).join('\n');
    const file = new File([`inventory_number,casting\n${lines}`], 'many.csv');
    const leaving = new AbortController();
    const work = await api.imports.run(
      { file, as: 'lot', lot: { name: 'Many', currency: 'USD' } },
      { signal: leaving.signal },
    );
    await work.next();
    leaving.abort();
    await expect(async () => {
      for await (const step of work) void step;
    }).rejects.toThrow();
    // The next write waits for the one before it to be over; nothing of that one is kept.
    const other = client(2);
    await other.lots.create({ name: 'Afterwards', currency: 'USD' });
    expect((await other.collection.summary()).counts).toMatchObject({ cars: 0, lots: 1 });
    expect((await other.collection.history()).map(entry => entry.label).join()).not.toContain('Many');
  });
});
