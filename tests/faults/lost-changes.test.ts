import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backUp } from '../../db/backup/backup.ts';
import { faultOfBackup } from '../../db/backup/fault.ts';
import { backupPaths, listBackups } from '../../db/backup/list.ts';
import { differingTables, tableHashes } from '../../db/backup/manifest.ts';
import { checkCollection } from '../../db/backup/verify.ts';
import { openReader } from '../../db/file/connection.ts';
import { layout } from '../../db/file/layout.ts';
import { runAction } from '../../db/history/history.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { copyPath } from '../../db/photos/photo-files.ts';
import { addPhoto, decodes, storePhoto } from '../../db/photos/photos.ts';
import { addSample, at, newCollection, temporaryFolder } from '../helpers/collections.ts';
import { picture } from '../helpers/pictures/pictures.ts';
import { startWorker } from './killing.ts';

const open = (dir: string) => openCollection(dir, { at, host: 'window' });
const each = process.env.FULL === '1' ? 40 : 15;

/**
 * A collection whose program was killed after twenty acknowledged actions of three makers
 * each, all in its log.
 */
const killed = async () => {
  const dir = temporaryFolder();
  await createCollection(dir, { at, reportingCurrency: 'USD' });
  const { child, lines, ended } = await startWorker(['writes', dir]);
  while (lines.length < 20) await new Promise(resolve => setTimeout(resolve, 5));
  child.kill('SIGKILL');
  await ended;
  return { dir, acknowledged: lines.length * 3 };
};

/** Opens a copy with its log changed; tells how many makers are left, and what is said of it. */
const withLog = async (from: string, log: Buffer, { shm }: { shm: boolean }) => {
  const dir = mkdtempSync(join(temporaryFolder(), 'copy-'));
  for (const part of ['database', 'openMark', ...(shm ? (['shm'] as const) : [])] as const)
    copyFileSync(layout(from)[part], layout(dir)[part]);
  writeFileSync(layout(dir).wal, log);
  const collection = await open(dir);
  const makers = (await collection.read.db.selectFrom('maker').select('id').execute()).length;
  const { notices } = collection;
  await collection.close({ at });
  const aside = (await listBackups(dir)).find(backup => backup.kind === 'set aside');
  return { makers, notices, aside, dir };
};

describe('a log after a crash', () => {
  it('that is whole is read, and all is said to be well', async () => {
    const { dir, acknowledged } = await killed();
    const log = readFileSync(layout(dir).wal);
    for (const shm of [true, false]) {
      const { makers, notices, aside } = await withLog(dir, log, { shm });
      expect(makers).toBeGreaterThanOrEqual(acknowledged);
      expect(notices).toEqual(['The last session ended without closing; checked, all is well.']);
      expect(aside).toBeUndefined();
    }
  });

  it('that was torn or has a flipped bit never passes in silence where acknowledged changes are gone', async () => {
    const { dir, acknowledged } = await killed();
    const log = readFileSync(layout(dir).wal);
    const frame = 24 + log.readUInt32BE(8);
    let lost = 0;
    let told = 0;
    for (let i = 0; i < each; i++) {
      const spoilt = Buffer.from(log);
      const place = 32 + ((i * 104_729 + 11) % (log.length - 32));
      const torn = i % 3 === 0;
      if (!torn) spoilt[place]! ^= 1 << (i % 8);
      // Without the index a log cut between two frames cannot be told from one that ended there.
      const shm = i % 2 === 0;
      const cut = (place - 32) % frame === 0 ? place + 1 : place;
      const result = await withLog(dir, torn ? spoilt.subarray(0, cut) : spoilt, { shm });
      if (result.makers >= acknowledged) continue;
      lost++;
      if (/the last changes may be missing: its write-ahead file is/.test(result.notices[0] ?? '')) told++;
      expect(result.notices[0]).toMatch(
        /The last change that is there: “Action \d+”, 2026-03-14 09:26 UTC|No change is there/,
      );
      const aside = readFileSync(
        join(layout(result.dir).backups, result.aside!.name, 'collection.sqlite-wal'),
      );
      expect(aside.equals(torn ? spoilt.subarray(0, cut) : spoilt)).toBe(true);
    }
    console.log(`logs torn or flipped: ${each}, changes lost in ${lost}, told in ${told}`);
    expect(lost).toBeGreaterThan(each / 2);
    expect(told).toBe(lost);
  });

  it('that was cut between two frames is missed by its index', async () => {
    const { dir } = await killed();
    const log = readFileSync(layout(dir).wal);
    const frame = 24 + log.readUInt32BE(8);
    const { notices } = await withLog(dir, log.subarray(0, 32 + 6 * frame), { shm: true });
    expect(notices[0]).toMatch(/may be missing: its write-ahead file is cut short/);
  });

  it('whose header is damaged is told, and saved before it is written over', async () => {
    const { dir } = await killed();
    const log = readFileSync(layout(dir).wal);
    log[27]! ^= 4;
    const { notices, aside } = await withLog(dir, log, { shm: true });
    expect(notices[0]).toMatch(/may be missing: the beginning of its write-ahead file is damaged/);
    expect(aside).toBeDefined();
  });
});

describe('a flipped bit', () => {
  it('anywhere in a backup is told', async () => {
    const collection = await newCollection();
    await addSample(collection);
    const { name } = await backUp(collection, { at, reason: 'asked for' });
    for (const path of [
      backupPaths(collection.dir, name).manifest,
      backupPaths(collection.dir, name).database,
    ]) {
      const whole = readFileSync(path);
      let seen = 0;
      for (let i = 0; i < each; i++) {
        const flipped = Buffer.from(whole);
        flipped[(i * 7_919 + 3) % whole.length]! ^= 1 << (i % 8);
        writeFileSync(path, flipped);
        if (faultOfBackup(collection.dir, name)) seen++;
      }
      writeFileSync(path, whole);
      console.log(`bits flipped in ${path.split('/').at(-1)} of a backup: ${each}, seen ${seen}`);
      expect(seen).toBe(each);
    }
    expect(faultOfBackup(collection.dir, name)).toBeUndefined();
  });

  it('in the database is told where it changes what is read, index or row, as long as nothing was done since the backup', async () => {
    const collection = await newCollection();
    await addSample(collection, { cars: 200 });
    await collection.close({ at });
    const whole = readFileSync(layout(collection.dir).database);
    const sound = await open(collection.dir);
    const before = tableHashes(sound.write.sqlite);
    await sound.close({ at });
    let unseen = 0;
    let harmless = 0;
    for (let i = 0; i < each; i++) {
      const flipped = Buffer.from(whole);
      flipped[100 + ((i * 15_485_863 + 17) % (whole.length - 100))]! ^= 1 << (i % 8);
      writeFileSync(layout(collection.dir).database, flipped);
      const seen = await open(collection.dir).then(
        async opened => {
          const findings = await checkCollection(opened);
          await opened.close({ at }).catch(() => {});
          return findings.some(finding => finding.level !== 'ok');
        },
        () => true,
      );
      for (const file of ['wal', 'shm', 'openMark'] as const)
        rmSync(layout(collection.dir)[file], { force: true });
      if (!seen) {
        // What is not told must lie where nothing is read: every row is as it was.
        writeFileSync(layout(collection.dir).database, flipped);
        const file = openReader(layout(collection.dir).database);
        if (differingTables(before, tableHashes(file)).length === 0) harmless++;
        else unseen++;
        file.close();
        for (const part of ['wal', 'shm'] as const) rmSync(layout(collection.dir)[part], { force: true });
      }
    }
    console.log(`bits flipped in the database: ${each}, unseen ${unseen}, where nothing is read ${harmless}`);
    expect(unseen).toBe(0);
  });
});

describe('a small copy of a photograph that does not decode', () => {
  it('is made again by a check', async () => {
    const collection = await newCollection();
    await addSample(collection);
    const photo = await storePhoto(collection.dir, await picture('png'));
    await runAction(collection, 'Added a photograph', at, trx => addPhoto(trx, photo, { carId: 1, at }));
    await backUp(collection, { at, reason: 'asked for' });
    const path = copyPath(collection.dir, photo.sha256, 'thumbnail');
    writeFileSync(path, readFileSync(path).subarray(0, 40));
    expect(await decodes(path)).toBe(false);
    const findings = await checkCollection(collection);
    expect(findings).toContainEqual({ level: 'ok', subject: 'copies', remade: 1, failed: 0 });
    expect(await decodes(path)).toBe(true);
  });
});

describe('what a killed program left unfinished', () => {
  it('is swept by the next opening, and nothing else', async () => {
    const { dir } = await killed();
    const shelf = join(layout(dir).photos, 'ab');
    mkdirSync(join(layout(dir).backups, '2026-01-01T00-00-00Z.part'), { recursive: true });
    mkdirSync(shelf, { recursive: true });
    const left = [join(shelf, 'cd.jpg.part'), `${layout(dir).database}.part`, `${layout(dir).openMark}.part`];
    for (const path of left) writeFileSync(path, 'half');
    writeFileSync(join(shelf, 'cd.jpg'), 'whole');
    await (await open(dir)).close({ at });
    expect(readdirSync(shelf)).toEqual(['cd.jpg']);
    expect(readdirSync(dir).filter(name => name.endsWith('.part'))).toEqual([]);
    expect(readdirSync(layout(dir).backups).filter(name => name.endsWith('.part'))).toEqual([]);
  });
});
