import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { backUp } from '../../../db/backup/backup.ts';
import { faultOfBackup, faultOfCopy } from '../../../db/backup/fault.ts';
import { backupPaths } from '../../../db/backup/list.ts';
import { manifestText, readManifest } from '../../../db/backup/manifest.ts';
import { restore } from '../../../db/backup/restore.ts';
import { checkCollection } from '../../../db/backup/verify.ts';
import { sha256Of } from '../../../db/file/files.ts';
import { layout } from '../../../db/file/layout.ts';
import { addSample, at, collectionErrorOf, newCollection } from '../../helpers/collections.ts';

const withBackup = async () => {
  const collection = await newCollection();
  await addSample(collection);
  const { name } = await backUp(collection, { at, reason: 'asked for' });
  return { collection, name, paths: backupPaths(collection.dir, name) };
};

/** Leaves every row as it is, and an index that no longer says what its table says. */
const spoilIndex = (path: string) => {
  const file = new Database(path);
  file.unsafeMode();
  file.pragma('writable_schema = ON');
  const [index] = file
    .prepare(
      "SELECT name FROM sqlite_schema WHERE type = 'index' AND tbl_name = 'car' AND sql LIKE '%(lot_id)'",
    )
    .pluck()
    .all();
  expect(index).toBeDefined();
  file
    .prepare("UPDATE sqlite_schema SET sql = replace(sql, '(lot_id)', '(status)') WHERE name = ?")
    .run(index);
  file.close();
};

describe('a copy of a database', () => {
  it('has no fault where SQLite finds none', async () => {
    const { paths } = await withBackup();
    expect(faultOfCopy(paths.database)).toBeUndefined();
  });

  it('is told to be damaged by what SQLite says of it', async () => {
    const { paths } = await withBackup();
    spoilIndex(paths.database);
    expect(faultOfCopy(paths.database)).toEqual({
      kind: 'structure',
      detail: expect.stringMatching(/missing from index|wrong # of entries/),
    });
  });

  it('has a fault, and no fall, where it cannot be read at all', async () => {
    const { paths } = await withBackup();
    writeFileSync(paths.database, 'no database, but long enough to be taken for the head of one'.repeat(99));
    expect(faultOfCopy(paths.database)).toEqual({
      kind: 'unreadable',
      detail: 'SQLITE_NOTADB: file is not a database',
    });
    rmSync(paths.database);
    expect(faultOfCopy(paths.database)).toMatchObject({
      kind: 'unreadable',
      detail: expect.stringMatching(/^SQLITE_CANTOPEN/),
    });
    mkdirSync(paths.database);
    expect(faultOfCopy(paths.database)).toMatchObject({ kind: 'unreadable' });
  });
});

describe('a backup that is damaged inside', () => {
  it('is not counted as sound though its bytes and rows are those that were described', async () => {
    const { collection, name, paths } = await withBackup();
    spoilIndex(paths.database);
    const read = readManifest(paths.manifest);
    if (!('manifest' in read)) throw new Error(read.fault);
    const sha256 = sha256Of(readFileSync(paths.database));
    writeFileSync(paths.manifest, manifestText({ ...read.manifest, sha256 }));
    expect(faultOfBackup(collection.dir, name)).toMatchObject({ kind: 'structure' });
    const findings = await checkCollection(collection);
    expect(findings.find(({ subject }) => subject === 'backups')).toMatchObject({ sound: 0, of: 1 });
  });

  it('is refused, with nothing changed, also where its description is not asked for', async () => {
    const { collection, name, paths } = await withBackup();
    const { dir } = collection;
    await collection.close({ at });
    const database = layout(dir).database;
    const before = readFileSync(database);
    writeFileSync(paths.manifest, '{');
    const sound = readFileSync(paths.database);
    const asked = () => restore(dir, name, { at, host: 'window', unverified: true });
    const spoils = [
      () => spoilIndex(paths.database),
      () => writeFileSync(paths.database, sound.subarray(0, sound.length >> 1)),
      () => writeFileSync(paths.database, 'not a database'.repeat(999)),
    ];
    for (const spoil of spoils) {
      writeFileSync(paths.database, sound);
      spoil();
      const error = await collectionErrorOf(asked);
      expect(error.code).toBe('damaged');
      expect(error.message).toContain(`The backup ${name} is damaged`);
      expect(readFileSync(database).equals(before)).toBe(true);
    }
    writeFileSync(paths.database, sound);
    expect((await asked()).presentState).toBeDefined();
  });
});
