import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';

vi.mock('electron', () => ({ utilityProcess: {} }));

const { startRelayedService } = await import('../../../electron/main/service-process.ts');

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const file = join(folder, 'service.mjs');
writeFileSync(file, "process.on('message', () => process.exit(4));");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Lets nothing of this process run for a while. */
const holdStill = (milliseconds: number) =>
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds);

describe('a service in a Node of its own', () => {
  it('ends with its own code, though it is written to when it is gone', async () => {
    const service = startRelayedService(process.execPath, file, '{}');
    const codes: (number | null)[] = [];
    const ended = new Promise<void>(resolve => {
      service.onExit(code => {
        codes.push(code);
        resolve();
      });
    });
    service.send({ kind: 'close' });
    holdStill(1000);
    service.send({ kind: 'close' });
    await ended;
    expect(codes).toEqual([4]);
  });

  it('says that it ended where it could not be started', async () => {
    const service = startRelayedService(join(folder, 'no-such-node'), file, '{}');
    expect(await new Promise(resolve => service.onExit(resolve))).toBe(null);
  });
});
