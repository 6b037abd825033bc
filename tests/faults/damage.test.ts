import {
  copyFileSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { listBackups } from '../../db/backup/list.ts';
import { restore } from '../../db/backup/restore.ts';
import { checkCollection } from '../../db/backup/verify.ts';
import type { Collection } from '../../db/collection.ts';
import { layout } from '../../db/file/layout.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { addSample, at, collectionErrorOf, temporaryFolder } from '../helpers/collections.ts';
import { startWorker } from './killing.ts';

const open = (dir: string) => openCollection(dir, { at, host: 'window' });

/** A closed collection of 300 cars with the backup made when it was closed. */
const closed = async (): Promise<string> => {
  const dir = temporaryFolder();
  await createCollection(dir, { at, reportingCurrency: 'USD' });
  const collection = await open(dir);
  await addSample(collection, { cars: 300 });
  await collection.close({ at });
  return dir;
};

/** A collection whose program was killed after some acknowledged actions, so that they lie in its log. */
const killed = async () => {
  const dir = await closed();
  const { child, lines, ended } = await startWorker(['writes', dir]);
  while (lines.length < 20) await new Promise(resolve => setTimeout(resolve, 5));
  child.kill('SIGKILL');
  await ended;
  return { dir, actions: lines.length };
};

const makers = async (collection: Collection) =>
  (await collection.read.db.selectFrom('maker').select('id').execute()).length;

/** Restoring the newest backup must lead out of any damage. */
const expectRestorable = async (dir: string) => {
  const [newest] = await listBackups(dir);
  await restore(dir, newest!.name, { at, host: 'window' });
  const collection = await open(dir);
  expect(await collection.read.db.selectFrom('car').select('id').execute()).toHaveLength(300);
  expect((await checkCollection(collection)).filter(finding => finding.level !== 'ok')).toEqual([]);
  await collection.close({ at });
};

describe('a database file that was', () => {
  it.each([0, 0.1, 0.5, 0.999])(
    'cut to %d of its length is refused as damaged, and a backup restored',
    async share => {
      const dir = await closed();
      const path = layout(dir).database;
      truncateSync(path, Math.floor(readFileSync(path).length * share));
      const before = readFileSync(path);
      const error = await collectionErrorOf(() => open(dir));
      expect(error.code).toBe('damaged');
      expect(error.message).toMatch(/Restore a backup/);
      expect(readFileSync(path).equals(before)).toBe(true);
      await expectRestorable(dir);
    },
  );

  it('overwritten at its beginning is refused, and a backup restored', async () => {
    const dir = await closed();
    const bytes = readFileSync(layout(dir).database);
    bytes.fill('garbage ', 0, 4_096);
    writeFileSync(layout(dir).database, bytes);
    expect((await collectionErrorOf(() => open(dir))).code).toBe('damaged');
    await expectRestorable(dir);
  });

  it('damaged inside while a program had it open is found at the next opening', async () => {
    const { dir } = await killed();
    const path = layout(dir).database;
    const bytes = readFileSync(path);
    for (let page = 8; page < bytes.length / 4_096; page++)
      bytes.fill(0x5a, page * 4_096, page * 4_096 + 600);
    writeFileSync(path, bytes);
    const error = await collectionErrorOf(() => open(dir));
    expect([error.code, error.message]).toEqual(['damaged', expect.stringMatching(/Restore a backup/)]);
    await expectRestorable(dir);
  });
});

describe('a write-ahead log', () => {
  it('left by a killed program is read, and nothing acknowledged is lost', async () => {
    const { dir, actions } = await killed();
    const collection = await open(dir);
    expect(await makers(collection)).toBeGreaterThanOrEqual(1 + 3 * actions);
    expect(collection.notices).toEqual(['The last session ended without closing; checked, all is well.']);
    await collection.close({ at });
  });

  it('that is gone is missed, and the owner is told', async () => {
    const { dir } = await killed();
    rmSync(layout(dir).wal);
    rmSync(layout(dir).shm, { force: true });
    const collection = await open(dir);
    expect(collection.notices).toEqual([
      'The last session ended without closing, and the last changes may be missing: its write-ahead file (collection.sqlite-wal) is gone. The last change that is there: “Added a sample”, 2026-03-14 09:26 UTC.',
    ]);
    expect((await checkCollection(collection)).filter(finding => finding.level === 'damage')).toEqual([]);
    await collection.close({ at });
  });

  it('that is torn gives whole actions up to the tear', async () => {
    const { dir, actions } = await killed();
    const log = readFileSync(layout(dir).wal);
    const folder = temporaryFolder();
    const seen: number[] = [];
    for (const share of [0.05, 0.3, 0.6, 0.9, 1]) {
      const torn = mkdtempSync(join(folder, 'torn-'));
      for (const path of ['database', 'openMark'] as const)
        copyFileSync(layout(dir)[path], layout(torn)[path]);
      writeFileSync(layout(torn).wal, log.subarray(0, Math.floor(log.length * share)));
      const collection = await open(torn);
      const rows = await makers(collection);
      expect((rows - 1) % 3).toBe(0);
      expect((await checkCollection(collection)).filter(finding => finding.level === 'damage')).toEqual([]);
      seen.push(rows);
      await collection.close({ at });
    }
    expect(seen).toEqual(seen.toSorted((a, b) => a - b));
    expect(seen.at(-1)).toBeGreaterThanOrEqual(1 + 3 * actions);
    expect(seen[0]).toBeLessThan(seen.at(-1)!);
  });

  it('of another collection is refused, beside a closed one and beside a killed one', async () => {
    const stranger = await killed();
    const own = await killed();
    for (const dir of [await closed(), own.dir]) {
      const log = readFileSync(layout(dir).wal, { flag: 'a+' });
      copyFileSync(layout(stranger.dir).wal, layout(dir).wal);
      const database = readFileSync(layout(dir).database);
      const error = await collectionErrorOf(() => open(dir));
      expect([error.code, error.message]).toEqual([
        'damaged',
        expect.stringContaining(`${layout(dir).wal} was not left there by this collection`),
      ]);
      expect(readFileSync(layout(dir).database).equals(database)).toBe(true);
      // Its own log put back, or the stranger's taken away as the message says, it opens again.
      if (log.length > 0) writeFileSync(layout(dir).wal, log);
      else rmSync(layout(dir).wal);
      const collection = await open(dir);
      expect(await makers(collection)).toBeGreaterThanOrEqual(log.length > 0 ? 1 + 3 * own.actions : 1);
      await collection.close({ at });
    }
  });

  it('of another collection goes with a restore, whose content is the backup alone', async () => {
    const stranger = await killed();
    const dir = await closed();
    copyFileSync(layout(stranger.dir).wal, layout(dir).wal);
    await expectRestorable(dir);
    expect(readdirSync(dir)).not.toContain('collection.sqlite-wal');
  });
});
