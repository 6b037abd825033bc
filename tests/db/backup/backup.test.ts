import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backUp, backUpIfDue } from '../../../db/backup/backup.ts';
import { faultOfBackup } from '../../../db/backup/fault.ts';
import { backupsToKeep, type KeptBackup } from '../../../db/backup/keep.ts';
import { backupPaths, listBackups } from '../../../db/backup/list.ts';
import { readManifest } from '../../../db/backup/manifest.ts';
import { layout } from '../../../db/file/layout.ts';
import { runAction } from '../../../db/history/history.ts';
import { openCollection } from '../../../db/open-collection.ts';
import { addSample, at, newCollection } from '../../helpers/collections.ts';

const info = (name: string, when: string, reason = 'daily') => ({ name, at: when, reason });
const day = (date: string, hour: number) => `${date}T${String(hour).padStart(2, '0')}:00:00.000Z`;

describe('which backups stay', () => {
  const kept = (backups: KeptBackup[]) => [...backupsToKeep(backups)].sort();

  it('three of today, the last of each day before, ten at most', () => {
    const today = [9, 8, 7, 6].map(hour => info(`t${hour}`, day('2026-03-20', hour)));
    const yesterday = [9, 8].map(hour => info(`y${hour}`, day('2026-03-19', hour)));
    expect(kept([...today, ...yesterday])).toEqual(['t7', 't8', 't9', 'y9']);
    const earlier = Array.from({ length: 15 }, (_, i) =>
      info(`d${String(18 - i).padStart(2, '0')}`, day(`2026-03-${String(18 - i).padStart(2, '0')}`, 9)),
    );
    expect(kept([...today, ...earlier])).toEqual([
      'd12',
      'd13',
      'd14',
      'd15',
      'd16',
      'd17',
      'd18',
      't7',
      't8',
      't9',
    ]);
  });

  it('the newest always, though the clock was set back', () => {
    const future = Array.from({ length: 12 }, (_, i) => info(`f${i}`, day(`2031-01-${12 - i + 10}`, 9)));
    expect(backupsToKeep([info('made now', day('2026-03-20', 9)), ...future]).has('made now')).toBe(true);
  });

  it('the state before a restore and before an update', () => {
    const later = Array.from({ length: 6 }, (_, i) => info(`l${i}`, day('2026-03-20', 20 - i)));
    const before = info('before', day('2026-03-20', 3), 'before restoring');
    const older = info('older', day('2026-03-20', 2), 'before restoring');
    const update = info('update', day('2026-03-20', 1), 'before updating');
    expect(kept([...later, before, older, update])).toEqual(['before', 'l0', 'l1', 'l2', 'update']);
  });

  it('none where there are none', () => {
    expect(kept([])).toEqual([]);
  });
});

describe('a backup', () => {
  it('holds every row, the photographs by name, and a manifest that describes it', async () => {
    const collection = await newCollection();
    await addSample(collection);
    const made = await backUp(collection, { at, reason: 'asked for' });
    expect(made.name).toBe('2026-03-14T09-26-53Z');
    expect(await listBackups(collection.dir)).toEqual([made]);
    const read = readManifest(backupPaths(collection.dir, made.name).manifest);
    if (!('manifest' in read)) throw new Error(read.fault);
    const { manifest } = read;
    expect(manifest.tables.car).toMatchObject({ rows: 12 });
    expect(manifest.bytes).toBe(readFileSync(backupPaths(collection.dir, made.name).database).length);
    expect(faultOfBackup(collection.dir, made.name)).toBeUndefined();
    expect(readdirSync(layout(collection.dir).backups)).toEqual([made.name]);
  });

  it('is told from a changed one at every byte', async () => {
    const collection = await newCollection();
    await addSample(collection);
    const { name } = await backUp(collection, { at, reason: 'asked for' });
    const path = backupPaths(collection.dir, name).database;
    const whole = readFileSync(path);
    for (let i = 0; i < 200; i++) {
      const flipped = Buffer.from(whole);
      const place = (i * 7_919) % whole.length;
      flipped[place] = flipped[place]! ^ (1 << (i % 8));
      writeFileSync(path, flipped);
      expect(faultOfBackup(collection.dir, name), `byte ${place}`).toBeDefined();
    }
    writeFileSync(path, whole);
    expect(faultOfBackup(collection.dir, name)).toBeUndefined();
  });

  it('gets a name of its own when the time is the same', async () => {
    const collection = await newCollection();
    const names = [];
    for (let i = 0; i < 3; i++) names.push((await backUp(collection, { at, reason: 'asked for' })).name);
    expect(names).toEqual(['2026-03-14T09-26-53Z', '2026-03-14T09-26-53Z-2', '2026-03-14T09-26-53Z-3']);
    expect((await listBackups(collection.dir)).map(backup => backup.name)).toEqual(names.toReversed());
  });

  it('stays the newest and stays at all when the clock is set back by years', async () => {
    const collection = await newCollection();
    for (let month = 1; month <= 12; month++)
      await backUp(collection, { at: day(`2031-${String(month).padStart(2, '0')}-01`, 9), reason: 'daily' });
    const now = await backUp(collection, { at: day('2026-03-20', 9), reason: 'daily' });
    const listed = await listBackups(collection.dir);
    expect(listed[0]).toEqual(now);
    expect(listed).toHaveLength(10);
    const next = await backUp(collection, { at: day('2026-03-19', 9), reason: 'daily' });
    expect((await listBackups(collection.dir))[0]).toEqual(next);
  });

  it('is not taken for one while unfinished, and the leftovers go with the next', async () => {
    const collection = await newCollection();
    const left = join(layout(collection.dir).backups, '2026-03-13T09-00-00Z.part');
    mkdirSync(left, { recursive: true });
    writeFileSync(join(left, 'collection.sqlite'), 'half');
    mkdirSync(join(layout(collection.dir).backups, 'my own folder'));
    expect(await listBackups(collection.dir)).toEqual([
      expect.objectContaining({ name: 'my own folder', kind: 'other', fault: null }),
    ]);
    await backUp(collection, { at, reason: 'asked for' });
    expect(existsSync(left)).toBe(false);
    expect(existsSync(join(dirname(left), 'my own folder'))).toBe(true);
  });
});

describe('automatic backups', () => {
  const addMaker = (collection: Parameters<typeof runAction>[0], name: string) =>
    runAction(collection, 'Added a maker', at, trx =>
      trx.insertInto('maker').values({ name, country: null }).execute(),
    );

  it('are made on close after changes, and only then', async () => {
    const collection = await newCollection();
    const reopen = () => openCollection(collection.dir, { at, host: 'window' });
    await collection.close({ at });
    expect(await listBackups(collection.dir)).toEqual([]);
    const second = await reopen();
    await addMaker(second, 'A');
    expect(await second.close({ at })).toEqual({ notices: [] });
    expect((await listBackups(collection.dir)).map(backup => backup.reason)).toEqual([
      'closed after changes',
    ]);
    await (await reopen()).close({ at });
    expect(await listBackups(collection.dir)).toHaveLength(1);
  });

  it('are made once a day while open, after changes', async () => {
    const collection = await newCollection();
    const due = (date: string) => backUpIfDue(collection, { at: day(date, 9) });
    expect(await due('2026-03-14')).toBeNull();
    await addMaker(collection, 'A');
    expect(await due('2026-03-14')).toMatchObject({ reason: 'daily' });
    expect(await due('2026-03-15')).toBeNull();
    await addMaker(collection, 'B');
    expect(await due('2026-03-14')).toBeNull();
    expect(await due('2026-03-15')).toMatchObject({ reason: 'daily' });
  });
});
