import { existsSync, readdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, type TestContext } from 'vitest';
import { backUp } from '../../db/backup/backup.ts';
import { listBackups } from '../../db/backup/list.ts';
import { restore } from '../../db/backup/restore.ts';
import { checkCollection } from '../../db/backup/verify.ts';
import type { Collection } from '../../db/collection.ts';
import { layout } from '../../db/file/layout.ts';
import { listHistory, runAction } from '../../db/history/history.ts';
import { undo } from '../../db/history/undo.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { storedPhotos } from '../../db/photos/photo-files.ts';
import { storePhoto } from '../../db/photos/photos.ts';
import { newService, refusalOf } from '../helpers/api.ts';
import { addSample, at, collectionErrorOf, opened, temporaryFolder } from '../helpers/collections.ts';
import { makeReadOnly, smallDisk } from '../helpers/mounts.ts';
import { picture } from '../helpers/pictures/pictures.ts';
import { startWorker } from './killing.ts';

const open = (dir: string) => openCollection(dir, { at, host: 'window' });

const ballast = (dir: string) => join(dir, 'ballast');

/** Fills what is left of the disk but for `left` bytes. */
const fill = (dir: string, left = 0) => {
  const { bavail, bsize } = statfsSync(dir);
  writeFileSync(ballast(dir), Buffer.alloc(Math.max(0, bavail * bsize - left)));
};
const free = (dir: string) => rmSync(ballast(dir), { force: true });

const addMaker = (collection: Collection, i: number) =>
  runAction(collection, `Action ${i}`, at, trx =>
    trx
      .insertInto('maker')
      .values({ name: `maker ${i}`, country: null, notes: 'x'.repeat(2_000) })
      .execute(),
  );

const makers = (collection: Collection) =>
  collection.read.db.selectFrom('maker').select('name').where('name', 'like', 'maker %').execute();

describe('a full disk', () => {
  it('ends an action with a clear error and loses nothing acknowledged', async context => {
    const dir = smallDisk(context, 6_000);
    await createCollection(dir, { at, reportingCurrency: 'USD' });
    const collection = await open(dir);
    await addSample(collection);
    const backup = await backUp(collection, { at, reason: 'asked for' });
    fill(dir, 200_000);
    let done = 0;
    const error = await collectionErrorOf(async () => {
      for (; ; done++) await addMaker(collection, done);
    });
    expect(done).toBeGreaterThan(3);
    expect([error.code, error.message]).toEqual([
      'disk-full',
      `The disk that holds ${dir} is full. Nothing was changed. Free some space (older ones in its backups folder may go), then try again.`,
    ]);
    expect(await makers(collection)).toHaveLength(done);
    expect((await listHistory(collection.read.db)).length).toBe(done + 1);

    const failing = await collectionErrorOf(() => backUp(collection, { at, reason: 'asked for' }));
    expect(failing.code).toBe('disk-full');
    const big = await picture('png', { width: 3_000, height: 2_000 });
    expect((await collectionErrorOf(() => storePhoto(dir, big))).code).toBe('disk-full');
    expect(storedPhotos(dir)).toEqual([]);
    const { notices } = await collection.close({ at });
    expect(notices).toEqual([expect.stringMatching(/^No backup was made on closing. The disk .* is full/)]);
    expect(await listBackups(dir)).toEqual([backup]);
    expect(readdirSync(layout(dir).backups)).toEqual([backup.name]);

    free(dir);
    const again = await open(dir);
    expect(await makers(again)).toHaveLength(done);
    expect((await checkCollection(again)).filter(finding => finding.level !== 'ok')).toEqual([]);
    await undo(again);
    await addMaker(again, 1_000);
    await again.close({ at });
  });

  it('stops a collection from being made or restored, and leaves nothing half made', async context => {
    const dir = smallDisk(context, 3_000);
    await createCollection(dir, { at, reportingCurrency: 'USD' });
    const collection = await open(dir);
    await addSample(collection);
    const { name } = await backUp(collection, { at, reason: 'asked for' });
    await collection.close({ at });
    fill(dir, 100_000);
    const names = readdirSync(dir);
    expect((await collectionErrorOf(() => restore(dir, name, { at, host: 'window' }))).code).toBe(
      'disk-full',
    );
    const second = join(dir, 'second');
    const making = () => createCollection(second, { at, reportingCurrency: 'USD' });
    expect((await collectionErrorOf(making)).code).toBe('disk-full');
    expect(readdirSync(second)).toEqual([]);
    rmSync(second, { recursive: true });
    expect(readdirSync(dir)).toEqual(names);
    free(dir);
    await restore(dir, name, { at, host: 'window' });
    expect((await (await opened(dir)).read.db.selectFrom('car').selectAll().execute()).length).toBe(12);
  });
});

/** A service with a collection of two lots on a disk of its own, and a backup of the first. */
const onSmallDisk = async (context: TestContext) => {
  const dir = join(smallDisk(context, 4_000), 'collection');
  const { api, session } = newService();
  await api.collection.create({ dir });
  await api.lots.create({ name: 'One', currency: 'USD' });
  const { name } = await api.collection.backUp();
  await api.lots.create({ name: 'Two', currency: 'USD' });
  return { api, session, dir, name };
};

describe('a collection in a service, on a full disk', () => {
  it('stays open as it was where a restore is refused for space', async context => {
    const { api, dir, name } = await onSmallDisk(context);
    const { bytes } = (await api.collection.backups())[0]!;
    // Room for the copy that is laid ready, and none for the backup of the present state.
    fill(join(dir, '..'), bytes! + 100_000);
    const names = readdirSync(layout(dir).backups);
    const refusal = await refusalOf(api.collection.restore({ name }));
    expect(refusal).toMatchObject({ code: 'STORAGE', data: { reason: 'disk-full' } });
    expect(await api.collection.state()).toMatchObject({ open: true, readOnly: false, dir });
    expect((await api.lots.list()).length).toBe(2);
    expect(readdirSync(layout(dir).backups)).toEqual(names);
    expect(readdirSync(dir)).not.toContain('collection.sqlite.part');
    free(join(dir, '..'));
    await api.lots.create({ name: 'Three', currency: 'USD' });
    await api.collection.restore({ name });
    expect((await api.lots.list()).map(lot => lot.name)).toEqual(['One']);
  });

  it('can be read, says that it is only read, and refuses changes', async context => {
    const { api, session, dir } = await onSmallDisk(context);
    await session.close();
    fill(join(dir, '..'));
    const state = await api.collection.open({ dir });
    expect(state).toMatchObject({ open: true, readOnly: true, problem: null });
    expect(state.notices.join(' ')).toMatch(
      /^This collection can be read but not changed\. The disk .* is full/,
    );
    expect((await api.lots.list()).length).toBe(2);
    const refusal = await refusalOf(api.lots.create({ name: 'Three', currency: 'USD' }));
    expect(refusal).toMatchObject({ code: 'STORAGE', data: { reason: 'read-only' } });
    free(join(dir, '..'));
    await session.close();
    expect(await api.collection.open({ dir })).toMatchObject({ readOnly: false });
    await api.lots.create({ name: 'Three', currency: 'USD' });
  });
});

describe('a collection in a service, in a read-only folder', () => {
  it('can be read with the changes that still lie in its log', async context => {
    const dir = temporaryFolder();
    await createCollection(dir, { at, reportingCurrency: 'USD' });
    const { child, lines, ended } = await startWorker(['writes', dir]);
    while (lines.length < 5) await new Promise(resolve => setTimeout(resolve, 5));
    child.kill('SIGKILL');
    await ended;
    makeReadOnly(context, dir);
    const { api, session } = newService();
    expect(await api.collection.open({ dir })).toMatchObject({ open: true, readOnly: true });
    const makers = await session.collection!.read.db.selectFrom('maker').select('id').execute();
    expect(makers.length).toBeGreaterThanOrEqual(15);
  });
});

describe('a read-only folder', () => {
  it('is said to be one, and can still be read', async context => {
    const dir = temporaryFolder();
    await createCollection(dir, { at, reportingCurrency: 'USD' });
    const collection = await open(dir);
    await addSample(collection);
    await collection.close({ at });
    makeReadOnly(context, dir);
    const error = await collectionErrorOf(() => open(dir));
    expect([error.code, error.message]).toEqual([
      'read-only',
      `${layout(dir).database} cannot be written. Nothing was changed. Allow writing to the folder, or move the collection to one that can be written.`,
    ]);
    const making = () => createCollection(join(dir, 'new'), { at, reportingCurrency: 'USD' });
    expect((await collectionErrorOf(making)).code).toBe('read-only');
    expect((await collectionErrorOf(async () => storePhoto(dir, await picture('png')))).code).toBe(
      'read-only',
    );
    const reading = await openCollection(dir, { at, host: 'command line', readOnly: true });
    expect(await reading.read.db.selectFrom('car').selectAll().execute()).toHaveLength(12);
    await reading.close({ at });
    expect(existsSync(layout(dir).lock)).toBe(true);
  });
});
