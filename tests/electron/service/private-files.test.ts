import { chmodSync, mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../helpers/collections.ts';
import { demoTemplate } from '../../helpers/demo/demo-template.ts';
import { playwornProcess as playworn } from '../cli/run-command.ts';

/**
 * What group and others may do with each file of a folder; the names of those with which they
 * may do anything.
 */
const openToOthers = (folder: string): string[] =>
  ['.', ...(readdirSync(folder, { recursive: true }) as string[])].filter(
    name => (statSync(join(folder, name)).mode & 0o077) !== 0,
  );

/** Makes a small collection by importing a lot into it. */
const found = async (collection: string) => {
  const lot = join(temporaryFolder(), 'lot.csv');
  writeFileSync(lot, 'casting\nDovetail\n');
  const { code, stderr } = await playworn(['import', lot, '--as', 'lot', '--collection', collection]);
  expect(code, stderr).toBe(0);
};

// Windows has no such modes; a user's folders are private there anyway.
describe.skipIf(process.platform === 'win32')('the files of a collection', () => {
  it('are their owner’s alone, photographs and backups included', async () => {
    // Made by `playworn demo`, in a process of its own.
    const demo = await demoTemplate();
    expect(readdirSync(demo)).toEqual(expect.arrayContaining(['collection.sqlite', 'photos']));
    expect(openToOthers(demo)).toEqual([]);
    const collection = join(temporaryFolder(), 'deep', 'Own');
    await found(collection);
    expect((await playworn(['backup', '--collection', collection])).code).toBe(0);
    expect(readdirSync(collection)).toEqual(expect.arrayContaining(['collection.sqlite', 'backups']));
    expect(openToOthers(join(collection, '..'))).toEqual([]);
    // A report is for somebody else, so it is a file like any other.
    const out = join(collection, '..', 'report.csv');
    expect((await playworn(['report', '--out', out, '--collection', collection])).code).toBe(0);
    expect(statSync(out).mode & 0o777).toBe(0o666 & ~process.umask());
  });
  it('are private in a folder that was there and is open to others', async () => {
    const collection = temporaryFolder();
    chmodSync(collection, 0o755);
    await found(collection);
    expect(openToOthers(collection).filter(name => name !== '.')).toEqual([]);
  });
  it('stay as open as the owner has made the collection', async () => {
    const collection = join(temporaryFolder(), 'Shared');
    mkdirSync(collection);
    await found(collection);
    chmodSync(collection, 0o770);
    chmodSync(join(collection, 'collection.sqlite'), 0o660);
    expect((await playworn(['backup', '--collection', collection])).code).toBe(0);
    const [backup = ''] = readdirSync(join(collection, 'backups')).sort().slice(-1);
    const made = join(collection, 'backups', backup);
    expect([statSync(made).mode & 0o777, statSync(join(made, 'manifest.json')).mode & 0o777]).toEqual([
      0o770, 0o660,
    ]);
  });
});
