import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { filesBelow, hashStream, manifestLines, readManifestLines } from '../../../db/archive/bag.ts';
import { makeArchive } from '../../../db/archive/make-archive.ts';
import { takeBack } from '../../../db/archive/take-back.ts';
import { differingTables, tableHashes } from '../../../db/backup/manifest.ts';
import { openReader } from '../../../db/file/connection.ts';
import { sha256Of } from '../../../db/file/files.ts';
import { layout } from '../../../db/file/layout.ts';
import { openCollection } from '../../../db/open-collection.ts';
import { writeOriginal } from '../../../db/photos/photo-files.ts';
import {
  addSample,
  at,
  collectionErrorOf,
  newCollection,
  temporaryFolder,
} from '../../helpers/collections.ts';
import { contentHash } from '../../helpers/content-hash.ts';
import { picture } from '../../helpers/pictures/pictures.ts';

/** A collection with cars and two photographs, and texts that a table of values could trip over. */
const filled = async () => {
  const collection = await newCollection();
  await addSample(collection, { cars: 30 });
  const photos: string[] = [];
  for (const background of ['#a33', '#3a3']) {
    const bytes = await picture('jpeg', { background });
    const sha256 = sha256Of(bytes);
    writeOriginal(collection.dir, sha256, 'jpeg', bytes);
    collection.write.sqlite
      .prepare(
        "INSERT INTO photo (sha256, format, bytes, width, height, car_id, added_at) VALUES (?, 'jpeg', ?, 64, 48, 1, ?)",
      )
      .run(sha256, bytes.length, at);
    photos.push(sha256);
  }
  const notes = ['', '\\N', 'a,"b"\r\nc', ' lead', '=1+1', '😀 שלום', 'NULL'];
  for (const [i, text] of notes.entries())
    collection.write.sqlite.prepare('UPDATE car SET notes = ? WHERE id = ?').run(text, i + 1);
  return { collection, photos };
};

const archived = async (name = 'shelf') => {
  const { collection, photos } = await filled();
  const out = join(temporaryFolder(), name);
  const made = await makeArchive(collection, {
    out,
    at,
    report: { fileName: 'report.pdf', bytes: Buffer.from('%PDF-1.7 report') },
  });
  return { collection, photos, out, made };
};

const contentOf = (dir: string) => {
  const sqlite = openReader(layout(dir).database);
  try {
    return tableHashes(sqlite);
  } finally {
    sqlite.close();
  }
};

const taken = (archive: string) => {
  const dir = join(temporaryFolder(), 'again');
  return takeBack({ archive, dir, at }).then(result => ({ ...result, dir }));
};

/** Changes one byte in the middle of a file. */
const rot = (path: string) => {
  const bytes = readFileSync(path);
  const middle = bytes.length >> 1;
  bytes[middle] = bytes[middle]! ^ 1;
  writeFileSync(path, bytes);
};

describe('an archive', () => {
  // FIPS 180-4, the one-block message of its examples ("abc"); values from NIST's SHA256.pdf and SHA512.pdf.
  it('takes SHA-256 and SHA-512', async () => {
    const hashes = await hashStream(
      (async function* () {
        yield Buffer.from('a');
        yield Buffer.from('bc');
      })(),
    );
    expect(hashes).toEqual({
      sha256: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
      sha512:
        'ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f',
      bytes: 3,
    });
  });

  it('writes names as RFC 8493 asks, and reads them back', () => {
    const hashes = { sha256: 'aa', sha512: 'bb', bytes: 1 };
    const text = manifestLines([['data/50%\nof it.txt', hashes]], 'sha256');
    expect(text).toBe('aa  data/50%25%0Aof it.txt\n');
    expect(readManifestLines(text)).toEqual(new Map([['data/50%\nof it.txt', 'aa']]));
    expect(readManifestLines('not a manifest')).toBeNull();
  });

  it('is a bag that the system’s own checksum programs find whole', async () => {
    const { out, made } = await archived();
    for (const name of ['manifest-sha256.txt', 'tagmanifest-sha256.txt'])
      execFileSync('sha256sum', ['--check', '--strict', '--quiet', name], { cwd: out });
    for (const name of ['manifest-sha512.txt', 'tagmanifest-sha512.txt'])
      execFileSync('sha512sum', ['--check', '--strict', '--quiet', name], { cwd: out });
    expect(readFileSync(join(out, 'bagit.txt'), 'utf8')).toBe(
      'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n',
    );
    const payload = filesBelow(out).filter(name => name.startsWith('data/'));
    const listed = readManifestLines(readFileSync(join(out, 'manifest-sha512.txt'), 'utf8'))!;
    expect([...listed.keys()]).toEqual(payload);
    expect(readFileSync(join(out, 'bag-info.txt'), 'utf8')).toMatch(
      new RegExp(`^Payload-Oxum: \\d+\\.${payload.length}$`, 'm'),
    );
    expect(payload).toContain('data/report.pdf');
    expect(made).toMatchObject({ files: filesBelow(out).length, missingPhotos: [] });
  });

  it.each(['shelf', 'shelf.zip'])('comes back with every row and photograph from %s', async name => {
    const { collection, photos, out } = await archived(name);
    const back = await taken(out);
    expect(back).toMatchObject({ database: 'verified', photos: 2, findings: [] });
    expect(differingTables(contentOf(back.dir), tableHashes(collection.write.sqlite))).toEqual([]);
    expect(contentHash(back.dir)).toBe(contentHash(collection.dir));
    for (const sha256 of photos)
      expect(
        sha256Of(readFileSync(join(layout(back.dir).photos, sha256.slice(0, 2), `${sha256.slice(2)}.jpg`))),
      ).toBe(sha256);
    const opened = await openCollection(back.dir, { at, host: 'command line' });
    await opened.close({ at });
  });

  it('names what has rotted, and brings the rest back, the database from its tables', async () => {
    const { collection, photos, out } = await archived();
    const photo = `data/photos/${photos[0]!.slice(0, 2)}/${photos[0]!.slice(2)}.jpg`;
    rot(join(out, 'data/collection.sqlite'));
    rot(join(out, photo));
    rmSync(join(out, 'data/report.pdf'));
    writeFileSync(join(out, 'data/added.txt'), 'mine');
    const back = await taken(out);
    expect(back.findings).toEqual([
      { file: 'data/added.txt', kind: 'unlisted' },
      { file: 'data/collection.sqlite', kind: 'altered' },
      { file: photo, kind: 'altered' },
      { file: 'data/report.pdf', kind: 'missing' },
    ]);
    expect(back).toMatchObject({ database: 'rebuilt', photos: 1 });
    expect(contentHash(back.dir)).toBe(contentHash(collection.dir));
    expect(differingTables(contentOf(back.dir), tableHashes(collection.write.sqlite))).toEqual([]);
  });

  it('tells of any file that has rotted by its name alone, and loses nothing but that', async () => {
    const { collection, out } = await archived();
    const content = contentHash(collection.dir);
    const payload = filesBelow(out).filter(name => name.startsWith('data/'));
    expect(payload.length).toBeGreaterThan(5);
    for (const name of payload.filter(one => readFileSync(join(out, one)).length > 0)) {
      rot(join(out, name));
      const back = await taken(out);
      expect(back.findings).toEqual([{ file: name, kind: 'altered' }]);
      expect(contentHash(back.dir), name).toBe(content);
      expect(back.photos).toBe(name.startsWith('data/photos/') ? 1 : 2);
      rmSync(back.dir, { recursive: true });
      rot(join(out, name));
    }
  });

  it('takes a database as it is where the tables beside it are damaged too', async () => {
    const { out } = await archived();
    const path = join(out, 'data/collection.sqlite');
    const bytes = readFileSync(path);
    const place = bytes.indexOf('Chipped nose');
    bytes.write('Chapped', place);
    writeFileSync(path, bytes);
    rot(join(out, 'data/tables/car.csv'));
    const back = await taken(out);
    expect(back.database).toBe('altered');
    expect(back.findings.map(finding => finding.file)).toEqual([
      'data/collection.sqlite',
      'data/tables/car.csv',
    ]);
  });

  it('gives nothing where neither can be had, and leaves nothing half-made', async () => {
    const { out } = await archived();
    writeFileSync(join(out, 'data/collection.sqlite'), 'gone');
    rot(join(out, 'data/tables/car.csv'));
    const folder = temporaryFolder();
    const error = await collectionErrorOf(() => takeBack({ archive: out, dir: join(folder, 'again'), at }));
    expect(error.code).toBe('damaged');
    expect(error.message).toContain('data/tables/car.csv');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('tells a photograph that was gone before the archive was made', async () => {
    const { collection, photos } = await filled();
    rmSync(join(layout(collection.dir).photos, photos[1]!.slice(0, 2)), { recursive: true });
    const out = join(temporaryFolder(), 'shelf.zip');
    const made = await makeArchive(collection, { out, at });
    expect(made.missingPhotos).toEqual([photos[1]]);
    const back = await taken(out);
    expect(back.findings).toEqual([
      { file: `data/photos/${photos[1]!.slice(0, 2)}/${photos[1]!.slice(2)}`, kind: 'missing' },
    ]);
  });

  it('refuses a goal that is taken, on both ways, and touches nothing', async () => {
    const { collection, out } = await archived();
    expect((await collectionErrorOf(() => makeArchive(collection, { out, at }))).code).toBe('exists');
    const dir = join(temporaryFolder(), 'taken');
    mkdirSync(dir);
    writeFileSync(join(dir, 'letter.txt'), 'dear');
    expect((await collectionErrorOf(() => takeBack({ archive: out, dir, at }))).code).toBe('exists');
    expect(readdirSync(dir)).toEqual(['letter.txt']);
  });

  it('leaves nothing at the goal when it is stopped', async () => {
    const { collection } = await filled();
    const folder = temporaryFolder();
    const controller = new AbortController();
    const work = makeArchive(collection, {
      out: join(folder, 'shelf.zip'),
      at,
      signal: controller.signal,
      onProgress: (_done, _total, stage) => stage === 'packing' && controller.abort(),
    });
    await expect(work).rejects.toThrow();
    expect(readdirSync(folder)).toEqual([]);
  });

  it('refuses what is no archive with its reason', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'letter.zip'), 'dear');
    const error = await collectionErrorOf(() =>
      takeBack({ archive: join(folder, 'letter.zip'), dir: join(folder, 'again'), at }),
    );
    expect(error).toMatchObject({ code: 'damaged' });
    expect(existsSync(join(folder, 'again'))).toBe(false);
  });

  it('lets no name lead out of the folder', async () => {
    const { out } = await archived();
    const moved = join(temporaryFolder(), 'moved');
    cpSync(out, moved, { recursive: true });
    const manifest = join(moved, 'manifest-sha256.txt');
    writeFileSync(manifest, `${readFileSync(manifest, 'utf8')}${'0'.repeat(64)}  data/../../outside.txt\n`);
    const back = await taken(moved);
    expect(back.findings).toContainEqual({ file: 'data/../../outside.txt', kind: 'missing' });
  });
});
