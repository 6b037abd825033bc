import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { backUp } from '../../../db/backup/backup.ts';
import { backupPaths } from '../../../db/backup/list.ts';
import { checkCollection } from '../../../db/backup/verify.ts';
import type { Collection } from '../../../db/collection.ts';
import { layout } from '../../../db/file/layout.ts';
import { runAction } from '../../../db/history/history.ts';
import { originalPath } from '../../../db/photos/photo-files.ts';
import { addPhoto, type StoredPhoto, storePhoto } from '../../../db/photos/photos.ts';
import { findingText, stepText } from '../../../valuation/wording/storage/finding-text.ts';
import { addSample, at, newCollection, opened } from '../../helpers/collections.ts';

const withPhotos = async () => {
  const collection = await newCollection();
  await addSample(collection);
  const photos: StoredPhoto[] = [];
  for (const background of ['#a33', '#3a3', '#33a'])
    photos.push(
      await storePhoto(
        collection.dir,
        await sharp({ create: { width: 40, height: 30, channels: 3, background } })
          .jpeg()
          .toBuffer(),
      ),
    );
  await runAction(collection, 'Added photographs', at, async trx => {
    for (const photo of photos) await addPhoto(trx, photo, { carId: 1, at });
  });
  return { collection, photos };
};

const worse = async (collection: Collection) =>
  (await checkCollection(collection)).filter(finding => finding.level !== 'ok').map(findingText);

describe('a check', () => {
  it('finds a sound collection sound, and says what it cannot know', async () => {
    const { collection } = await withPhotos();
    await backUp(collection, { at, reason: 'asked for' });
    const findings = await checkCollection(collection);
    expect(findings.map(finding => finding.level)).toEqual(findings.map(() => 'ok'));
    const sentences = findings.map(findingText);
    expect(sentences).toContain('3 of 3 photographs are just as they were added.');
    expect(sentences).toContain('1 of 1 backup is just as it was made.');
    expect(sentences).toContain('Every row is just as in the newest backup.');
    expect(sentences.at(-1)).toMatch(/^What a check cannot know/);
  });

  it('misses a backup where there is none', async () => {
    expect(await worse(await newCollection())).toEqual([
      'There is no backup yet. One is made when the collection is closed after a change.',
    ]);
  });

  it('finds photographs that are missing or altered by a single bit', async () => {
    const { collection, photos } = await withPhotos();
    await backUp(collection, { at, reason: 'asked for' });
    rmSync(originalPath(collection.dir, photos[0]!.sha256)!);
    const altered = originalPath(collection.dir, photos[1]!.sha256)!;
    const bytes = readFileSync(altered);
    bytes[bytes.length - 3]! ^= 4;
    writeFileSync(altered, bytes);
    const found = await worse(collection);
    expect(found).toHaveLength(2);
    expect(found).toContain(
      `The photograph ${photos[0]!.sha256.slice(0, 8)} is missing from the photo folder.`,
    );
    expect(found.join()).toContain(`${altered} is not the one that was added`);
  });

  it('finds a damaged backup', async () => {
    const collection = await newCollection();
    const { name } = await backUp(collection, { at, reason: 'asked for' });
    writeFileSync(backupPaths(collection.dir, name).manifest, '{');
    expect(await worse(collection)).toEqual([
      `The backup ${name} is damaged: its description (manifest.json) cannot be read, so nobody can say whether its database is as it was made.`,
    ]);
    const second = await backUp(collection, { at, reason: 'asked for' });
    rmSync(backupPaths(collection.dir, second.name).database);
    expect(await worse(collection)).toContain(
      `The backup ${second.name} is damaged: its database is missing.`,
    );
    expect((await checkCollection(collection)).find(({ subject }) => subject === 'backups')).toMatchObject({
      sound: 0,
      of: 2,
    });
  });

  it('counts no backup as sound that cannot be read to its end', async () => {
    const collection = await newCollection();
    const { name } = await backUp(collection, { at, reason: 'asked for' });
    // A folder in the place of a file: whatever reads it throws.
    const { database } = backupPaths(collection.dir, name);
    rmSync(database);
    mkdirSync(database);
    const found = await checkCollection(collection);
    expect(found).toContainEqual(
      expect.objectContaining({
        level: 'damage',
        name,
        fault: expect.objectContaining({ kind: 'unreadable' }),
      }),
    );
    expect(found.find(({ subject }) => subject === 'backups')).toMatchObject({ sound: 0, of: 1 });
  });

  it('finds a row that another program changed since the newest backup, though the file is well formed', async () => {
    const { collection } = await withPhotos();
    await collection.close({ at });
    const file = new Database(layout(collection.dir).database);
    file.exec("UPDATE car SET notes = 'tampered' WHERE id = 4");
    file.close();
    expect(await worse(await opened(collection.dir))).toEqual([
      'The search index is not as it should be (car); searching may miss rows. Rebuild the indexes.',
      expect.stringMatching(/^Rows in car differ from the newest backup though nothing was done since/),
    ]);
  });

  it('finds rows that point at nothing', async () => {
    const { collection } = await withPhotos();
    await collection.close({ at });
    const file = new Database(layout(collection.dir).database);
    file.pragma('foreign_keys = OFF');
    file.exec('DELETE FROM lot');
    file.close();
    expect((await worse(await opened(collection.dir))).join()).toContain(
      '12 rows point at rows that do not exist, in car',
    );
  });

  it('finds a damaged page', async () => {
    const collection = await newCollection();
    await addSample(collection, { cars: 3_000 });
    await collection.close({ at });
    const path = layout(collection.dir).database;
    const bytes = readFileSync(path);
    bytes.fill(0xa5, bytes.length >> 1, (bytes.length >> 1) + 4_096);
    writeFileSync(path, bytes);
    expect((await worse(await opened(collection.dir))).join()).toMatch(/is damaged/);
  });

  it('tells its progress and stops when asked', async () => {
    const { collection } = await withPhotos();
    const seen: string[] = [];
    const stop = new AbortController();
    const checking = checkCollection(collection, {
      signal: stop.signal,
      onProgress: (done, total, step) => {
        seen.push(`${done}/${total} ${step && stepText(step)}`);
        if (step?.kind === 'photograph' && step.number === 2) stop.abort();
      },
    });
    await expect(checking).rejects.toThrow(/abort/i);
    expect(seen).toEqual([
      '0/7 the database file',
      '1/7 references',
      '2/7 the search index',
      '3/7 rows',
      '4/7 photograph 1 of 3',
      '5/7 photograph 2 of 3',
    ]);
  });
});
