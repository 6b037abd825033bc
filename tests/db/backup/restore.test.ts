import {
  copyFileSync,
  existsSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backUp } from '../../../db/backup/backup.ts';
import { backupPaths, listBackups, nearestBackup } from '../../../db/backup/list.ts';
import { restore } from '../../../db/backup/restore.ts';
import { layout } from '../../../db/file/layout.ts';
import { runAction } from '../../../db/history/history.ts';
import { undo } from '../../../db/history/undo.ts';
import { openCollection } from '../../../db/open-collection.ts';
import { addSample, at, collectionErrorOf, newCollection, opened } from '../../helpers/collections.ts';

const later = '2026-03-15T08:00:00.000Z';
const toRestore = { at: later, host: 'window' } as const;

/** A closed collection of 12 cars with a backup of them, and then none. */
const emptied = async () => {
  const collection = await newCollection();
  await addSample(collection);
  const backup = await backUp(collection, { at, reason: 'asked for' });
  await runAction(collection, 'Removed every car', at, trx => trx.deleteFrom('car').execute());
  await collection.close({ at: later });
  return { dir: collection.dir, backup };
};

const carsIn = async (dir: string) => {
  const collection = await openCollection(dir, { at: later, host: 'window' });
  const cars = await collection.read.db.selectFrom('car').selectAll().execute();
  const { notices } = collection;
  await collection.close({ at: later });
  return { cars: cars.length, notices };
};

describe('restoring', () => {
  it('brings the backup back and keeps the present state as a backup', async () => {
    const { dir, backup } = await emptied();
    expect((await carsIn(dir)).cars).toBe(0);
    const { presentState, missingPhotos } = await restore(dir, backup.name, toRestore);
    expect(missingPhotos).toEqual([]);
    expect(await carsIn(dir)).toEqual({ cars: 12, notices: [] });
    const [newest] = await listBackups(dir);
    expect(newest).toMatchObject({ name: presentState, reason: 'before restoring' });
    await restore(dir, presentState!, toRestore);
    expect((await carsIn(dir)).cars).toBe(0);
  });

  it('leaves the restored backup as the nearest to what there is, until a newer one is made', async () => {
    const { dir, backup } = await emptied();
    expect(nearestBackup(await listBackups(dir))?.name).not.toBe(backup.name);
    await restore(dir, backup.name, toRestore);
    expect(nearestBackup(await listBackups(dir))?.name).toBe(backup.name);
    const collection = await opened(dir);
    const newer = await backUp(collection, { at: later, reason: 'asked for' });
    expect(nearestBackup(await listBackups(dir))?.name).toBe(newer.name);
    expect(nearestBackup([])).toBeUndefined();
  });

  it('brings history along, so that undo goes on from there', async () => {
    const { dir, backup } = await emptied();
    await restore(dir, backup.name, toRestore);
    const collection = await opened(dir);
    expect(await undo(collection)).toMatchObject({ label: 'Added a sample' });
  });

  it('removes the write-ahead log, which would be read into the restored database', async () => {
    const { dir, backup } = await emptied();
    const stranger = await newCollection();
    await runAction(stranger, 'Added a maker', at, trx =>
      trx.insertInto('maker').values({ name: 'Stranger', country: null }).execute(),
    );
    copyFileSync(layout(stranger.dir).wal, layout(dir).wal);
    const { presentState } = await restore(dir, backup.name, toRestore);
    expect(presentState).toMatch(/^set-aside-/);
    expect((await carsIn(dir)).cars).toBe(12);
    const collection = await opened(dir);
    const makers = await collection.read.db.selectFrom('maker').select('name').execute();
    expect(makers).toEqual([{ name: 'Quillon Toys' }]);
  });

  it('works when the present database is gone, empty or damaged, and sets a damaged one aside as it lies', async () => {
    for (const spoil of [
      (path: string) => rmSync(path),
      (path: string) => truncateSync(path, 0),
      (path: string) => truncateSync(path, Math.floor(readFileSync(path).length / 2)),
      (path: string) => writeFileSync(path, Buffer.alloc(40_000, 'garbage')),
    ]) {
      const { dir, backup } = await emptied();
      spoil(layout(dir).database);
      const before = existsSync(layout(dir).database) ? readFileSync(layout(dir).database) : undefined;
      const { presentState } = await restore(dir, backup.name, toRestore);
      expect(await carsIn(dir)).toEqual({ cars: 12, notices: [] });
      if (!before) expect(presentState).toBeUndefined();
      else {
        const aside = readFileSync(join(layout(dir).backups, presentState!, 'collection.sqlite'));
        expect(aside.equals(before)).toBe(true);
      }
    }
  });

  it('refuses a damaged backup and changes nothing', async () => {
    const { dir, backup } = await emptied();
    const path = backupPaths(dir, backup.name).database;
    const bytes = readFileSync(path);
    bytes[bytes.length >> 1]! ^= 1;
    writeFileSync(path, bytes);
    const before = readFileSync(layout(dir).database);
    const error = await collectionErrorOf(() => restore(dir, backup.name, toRestore));
    expect([error.code, error.message]).toEqual([
      'damaged',
      `The backup ${backup.name} is damaged: its database is not the one that was written. Nothing was changed. Choose another backup.`,
    ]);
    expect(readFileSync(layout(dir).database).equals(before)).toBe(true);
    expect(readdirSync(dir)).not.toContain('collection.sqlite.part');
  });

  it('refuses a name that is not in the list, whatever path it spells', async () => {
    const { dir } = await emptied();
    for (const name of ['nothing', '../backups', '../../etc', ''])
      expect((await collectionErrorOf(() => restore(dir, name, toRestore))).code).toBe('missing');
  });

  it('refuses while the collection is open', async () => {
    const { dir, backup } = await emptied();
    await opened(dir);
    const error = await collectionErrorOf(() => restore(dir, backup.name, toRestore));
    expect(error.code).toBe('locked');
  });
});
