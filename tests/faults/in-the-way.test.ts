import { linkSync, mkdirSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeFolder } from '../../db/file/files.ts';
import { layout } from '../../db/file/layout.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { at, collectionErrorOf, temporaryFolder } from '../helpers/collections.ts';

const open = (dir: string) => openCollection(dir, { at, host: 'window' });

const closed = async () => {
  const dir = temporaryFolder();
  await createCollection(dir, { at, reportingCurrency: 'USD' });
  await (await open(dir)).close({ at });
  return dir;
};

describe('a folder that the system denies', () => {
  it('is refused at once, also where its parent is there', async () => {
    for (const path of ['/proc/playworn', '/proc/playworn/deeper']) {
      const error = await collectionErrorOf(async () => makeFolder(path));
      expect([error.code, error.message]).toEqual([
        'read-only',
        `The folder ${path} cannot be made there. Choose another place.`,
      ]);
    }
  });

  it('is refused where a file stands in the way', async () => {
    const file = join(temporaryFolder(), 'file');
    writeFileSync(file, '');
    expect((await collectionErrorOf(async () => makeFolder(join(file, 'below')))).code).toBe('obstructed');
    expect((await collectionErrorOf(async () => makeFolder(file))).code).toBe('obstructed');
  });
});

describe('a database with another name', () => {
  it('is refused as a symbolic link, which names where the file lies', async () => {
    const dir = await closed();
    const linked = temporaryFolder();
    symlinkSync(layout(dir).database, layout(linked).database);
    const error = await collectionErrorOf(() => open(linked));
    expect(error.code).toBe('linked');
    expect(error.message).toContain(`is a link to ${layout(dir).database}`);
    const reading = await openCollection(linked, { at, host: 'command line', readOnly: true });
    await reading.close({ at });
    // A folder that is a link is the folder itself.
    const folder = join(temporaryFolder(), 'link');
    symlinkSync(dir, folder);
    const first = await open(folder);
    expect((await collectionErrorOf(() => open(dir))).code).toBe('locked');
    await first.close({ at });
  });

  it('is refused as a hard link, and its first name too while there are two', async () => {
    const dir = await closed();
    const other = temporaryFolder();
    linkSync(layout(dir).database, layout(other).database);
    for (const folder of [dir, other]) {
      const error = await collectionErrorOf(() => open(folder));
      expect([error.code, error.fault]).toEqual(['linked', { kind: 'hard-links', names: 2 }]);
    }
    rmSync(layout(other).database);
    await (await open(dir)).close({ at });
  });
});

describe('something of the wrong kind', () => {
  it.each(['database', 'wal', 'shm', 'lock', 'openMark'] as const)(
    'in the place of the file %s is named, and nothing fails without a word',
    async part => {
      const dir = await closed();
      const path = layout(dir)[part];
      rmSync(path, { force: true });
      mkdirSync(path);
      const error = await collectionErrorOf(() => open(dir));
      expect([error.code, error.fault]).toEqual([
        'obstructed',
        { kind: 'obstructed', path, expected: 'file' },
      ]);
      expect(error.message).toBe(
        `${path} is not a file, and Playworn needs a file there. Move it away, then try again.`,
      );
    },
  );

  it.each(['photos', 'backups'] as const)('in the place of the folder %s is named', async part => {
    const dir = await closed();
    writeFileSync(layout(dir)[part], 'a file');
    const error = await collectionErrorOf(() => open(dir));
    expect(error.fault).toEqual({ kind: 'obstructed', path: layout(dir)[part], expected: 'folder' });
  });

  it('in the lock is no damaged database', async () => {
    const dir = await closed();
    writeFileSync(layout(dir).lock, 'garbage '.repeat(1_000));
    const error = await collectionErrorOf(() => open(dir));
    expect(error.code).toBe('obstructed');
    expect(error.message).toMatch(/is not a lock that Playworn made.*The collection itself was not touched/);
    renameSync(layout(dir).lock, join(dir, 'away'));
    await (await open(dir)).close({ at });
  });
});
