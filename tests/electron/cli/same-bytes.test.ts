import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import { answer } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('the same report of the same day is the same file, and SOURCE_DATE_EPOCH dates it', async () => {
  const dir = join(folder, 'shelf');
  const list = join(folder, 'list.csv');
  writeFileSync(list, 'Casting,Colour,Grade\nOsmerry,Ember,7\n');
  await answer(['import', list, '--as', 'lot', '--collection', dir]);
  const made = async (name: string) => {
    await answer(['report', '--collection', dir, '--on', '2026-03-14', '--out', join(folder, name)]);
    return readFileSync(join(folder, name));
  };
  const first = await made('one.pdf');
  expect(first.toString('latin1')).toContain('D:20260314000000');
  expect(await made('two.pdf')).toEqual(first);
  // 2020-02-02T02:02:02Z
  vi.stubEnv('SOURCE_DATE_EPOCH', '1580608922');
  expect((await made('three.pdf')).toString('latin1')).toContain('D:20200202020202');
  vi.unstubAllEnvs();
});
