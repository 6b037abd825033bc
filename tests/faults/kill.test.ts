import { cpSync, existsSync, mkdtempSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { makeArchive } from '../../db/archive/make-archive.ts';
import { takeBack } from '../../db/archive/take-back.ts';
import { backUp } from '../../db/backup/backup.ts';
import { faultOfBackup } from '../../db/backup/fault.ts';
import { listBackups } from '../../db/backup/list.ts';
import { checkCollection } from '../../db/backup/verify.ts';
import type { Collection } from '../../db/collection.ts';
import { sha256Of } from '../../db/file/files.ts';
import { layout } from '../../db/file/layout.ts';
import { listHistory, runAction } from '../../db/history/history.ts';
import { undo } from '../../db/history/undo.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { originalPath, storedPhotos } from '../../db/photos/photo-files.ts';
import { readPhoto } from '../../db/photos/photos.ts';
import { addSample, at, collectionErrorOf, temporaryFolder } from '../helpers/collections.ts';
import { contentHash } from '../helpers/content-hash.ts';
import { delays, killRuns, killWhileWorking, startWorker } from './killing.ts';
import { slowSteps } from './worker.ts';

beforeAll(() => {
  console.log(`kill -9: ${killRuns} runs of each kind${killRuns < 25 ? ' (25 with FULL=1)' : ''}`);
});

const open = (dir: string) => openCollection(dir, { at, host: 'window' });

const count = ({ write: { sqlite } }: Collection, from: string) =>
  Number(sqlite.prepare(`SELECT count(*) FROM ${from}`).pluck().get());

const expectSound = async (collection: Collection) =>
  expect((await checkCollection(collection)).filter(finding => finding.level === 'damage')).toEqual([]);

/**
 * Runs `once` for every delay in a copy of a collection made by `prepare`; it returns how much had been
 * acknowledged. Where nothing was, nothing was tried: then the kills come later and later, until something is.
 */
const eachKill = async (
  span: number,
  prepare: (collection: Collection) => Promise<unknown>,
  once: (dir: string, delay: number) => Promise<number>,
) => {
  let acknowledged = 0;
  const folder = temporaryFolder();
  const first = join(folder, 'first');
  await createCollection(first, { at, reportingCurrency: 'USD' });
  const collection = await open(first);
  await prepare(collection);
  await collection.close({ at });
  const kill = async (delay: number) => {
    const dir = mkdtempSync(join(folder, 'killed-'));
    cpSync(first, dir, { recursive: true });
    acknowledged += await once(dir, delay);
  };
  for (const delay of delays(span)) await kill(delay);
  for (let delay = 2 * span; acknowledged === 0; delay *= 2) await kill(delay);
  expect(acknowledged).toBeGreaterThan(0);
};

/** A bound for a machine that does much else besides. */
const limit = killRuns * 60_000;

describe('a kill during', () => {
  it('writes loses no acknowledged action and leaves no half one', { timeout: limit }, () =>
    eachKill(250, addSample, async (dir, delay) => {
      const acknowledged = await killWhileWorking(['writes', dir], delay);
      const collection = await open(dir);
      expect(collection.notices).toEqual(['The last session ended without closing; checked, all is well.']);
      const actions = count(collection, "change WHERE label LIKE 'Action%'");
      expect(actions).toBeGreaterThanOrEqual(acknowledged.length);
      expect(actions).toBeLessThanOrEqual(acknowledged.length + 1);
      expect(count(collection, 'maker')).toBe(1 + 3 * actions);
      expect(count(collection, 'change_row WHERE last_row_id IS NULL')).toBe(3 * actions);
      await expectSound(collection);
      await collection.close({ at });
      return acknowledged.length;
    }),
  );

  it('an import and its undo leaves each import whole or not at all', { timeout: limit }, () =>
    eachKill(1_500, addSample, async (dir, delay) => {
      const acknowledged = await killWhileWorking(['bulk', dir], delay);
      const collection = await open(dir);
      const cars = count(collection, 'car') - 12;
      expect(cars % 4_000).toBe(0);
      const added = acknowledged.filter(line => line.startsWith('added')).length;
      const undone = acknowledged.filter(line => line.startsWith('undone')).length;
      const undoing = acknowledged.filter(line => line.startsWith('undoing')).length;
      expect(cars / 4_000).toBeGreaterThanOrEqual(added - undoing);
      expect(cars / 4_000).toBeLessThanOrEqual(added - undone + 1);
      expect(count(collection, 'car_search_docsize')).toBe(cars + 12);
      await expectSound(collection);
      const imports = (await listHistory(collection.read.db)).filter(action => !action.undone).length - 1;
      for (let i = 0; i < imports; i++) await undo(collection);
      expect(count(collection, 'car')).toBe(12);
      await collection.close({ at });
      return acknowledged.length;
    }),
  );

  it('a migration leaves the old schema or the new one, every row, and the backup', {
    timeout: limit,
  }, async () => {
    const makers = (collection: Collection) =>
      runAction(collection, 'Added makers', at, async () => {
        const insert = collection.write.sqlite.prepare('INSERT INTO maker (name) VALUES (?)');
        for (let i = 0; i < 4_000; i++) insert.run(`Maker ${i}`);
      });
    const ended = { before: 0, after: 0 };
    const once = async (dir: string, delay: number) => {
      const acknowledged = await killWhileWorking(['migration', dir], delay);
      const before = await open(dir).catch(error => {
        expect(error.code).toBe('newer');
      });
      ended[before ? 'before' : 'after']++;
      if (before) {
        expect(acknowledged).toEqual([]);
        expect(count(before, "sqlite_master WHERE name = 'name_length'")).toBe(0);
        expect(count(before, 'maker')).toBe(4_000);
        await before.close({ at });
      }
      const after = await openCollection(dir, { at, host: 'window', steps: slowSteps });
      expect([count(after, 'maker'), count(after, 'name_length')]).toEqual([4_000, 4_000]);
      expect((await listBackups(dir)).map(backup => backup.reason)).toContain('before updating');
      await expectSound(after);
      await after.close({ at });
      return before ? 1 : 0;
    };
    await eachKill(900, makers, once);
    console.log(
      `kill -9 during a migration: ${ended.before} left the old schema, ${ended.after} the new one`,
    );
  });

  it('a backup leaves whole backups alone', { timeout: limit }, () =>
    eachKill(
      1_000,
      collection => addSample(collection, { cars: 2_000 }),
      async (dir, delay) => {
        const acknowledged = await killWhileWorking(['backup', dir], delay);
        const names = (await listBackups(dir)).map(backup => backup.name);
        for (const name of names) expect([name, faultOfBackup(dir, name)]).toEqual([name, undefined]);
        const newest = acknowledged.at(-1);
        if (newest) expect(names).toContain(newest);
        const collection = await open(dir);
        await expectSound(collection);
        const next = await backUp(collection, { at, reason: 'asked for' });
        expect((await listBackups(dir))[0]).toEqual(next);
        expect(readdirSync(layout(dir).backups).filter(name => name.endsWith('.part'))).toEqual([]);
        await collection.close({ at });
        return acknowledged.length;
      },
    ),
  );

  it('an archive, or taking one back, leaves whole ones alone at the goal', { timeout: limit }, () =>
    eachKill(1_200, addSample, async (dir, delay) => {
      const acknowledged = await killWhileWorking(['archive', dir], delay);
      const whole = (below: string) =>
        existsSync(below) ? readdirSync(below).filter(name => !name.endsWith('.part')) : [];
      const archives = whole(`${dir}-out`);
      expect(archives).toEqual(expect.arrayContaining(acknowledged));
      for (const [i, name] of archives.entries())
        expect(
          await takeBack({ archive: join(`${dir}-out`, name), dir: join(`${dir}-again`, String(i)), at }),
        ).toMatchObject({ database: 'verified', findings: [] });
      for (const name of whole(`${dir}-back`))
        expect(contentHash(join(`${dir}-back`, name))).toBe(contentHash(dir));
      // What a kill left half-written beside the goal is cleared by the next try, and is in nobody's way.
      const collection = await open(dir);
      const next = acknowledged.length;
      const out = join(`${dir}-out`, next % 2 === 0 ? `archive-${next}.zip` : `archive-${next}`);
      if (!existsSync(out)) {
        await makeArchive(collection, { out, at });
        expect(readdirSync(`${dir}-out`).filter(name => name.endsWith('.part'))).toEqual([]);
      }
      await collection.close({ at });
      return archives.length;
    }),
  );

  it('a restore leaves one state or the other, whole', { timeout: limit }, async () => {
    const days = ['2026-03-01T09:00:00.000Z', '2026-03-02T09:00:00.000Z'];
    const names: string[] = [];
    const prepare = async (collection: Collection) => {
      await addSample(collection, { cars: 2_000 });
      names.push((await backUp(collection, { at: days[0]!, reason: 'daily' })).name);
      await runAction(collection, 'Removed most cars', at, trx =>
        trx.deleteFrom('car').where('id', '>', 10).execute(),
      );
      names.push((await backUp(collection, { at: days[1]!, reason: 'daily' })).name);
    };
    await eachKill(1_200, prepare, async (dir, delay) => {
      const acknowledged = await killWhileWorking(['restore', dir, ...names], delay);
      const collection = await open(dir);
      expect([10, 2_000]).toContain(count(collection, 'car'));
      await expectSound(collection);
      await collection.close({ at });
      for (const name of names) expect(faultOfBackup(dir, name)).toBeUndefined();
      return acknowledged.length;
    });
  });

  it('storing photographs leaves none half and loses none acknowledged', { timeout: limit }, () =>
    eachKill(800, addSample, async (dir, delay) => {
      const acknowledged = await killWhileWorking(['photos', dir], delay);
      const collection = await open(dir);
      const rows = await collection.read.db.selectFrom('photo').select('sha256').orderBy('id').execute();
      const hashes = rows.map(row => row.sha256);
      expect(hashes.slice(0, acknowledged.length)).toEqual(acknowledged);
      for (const sha256 of storedPhotos(dir))
        expect(sha256Of((await readPhoto(dir, sha256, 'original')).bytes)).toBe(sha256);
      for (const sha256 of hashes) expect(originalPath(dir, sha256)).toBeDefined();
      await expectSound(collection);
      await collection.close({ at });
      return acknowledged.length;
    }),
  );

  it('holding the lock frees it, and until then the holder is named', async () => {
    const dir = temporaryFolder();
    await createCollection(dir, { at, reportingCurrency: 'USD' });
    const { child, ended } = await startWorker(['hold', dir]);
    const error = await collectionErrorOf(() => open(dir));
    expect([error.code, error.message]).toEqual([
      'locked',
      `The collection in ${dir} is already open in browser mode (process ${child.pid}, since ${at}). Close it there first.`,
    ]);
    const beside = await openCollection(dir, { at, host: 'command line', readOnly: true });
    await beside.close({ at });
    child.kill('SIGKILL');
    await ended;
    await (await open(dir)).close({ at });
  });
});
