import {
  createWriteStream,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import DatabaseFile from 'better-sqlite3';
import { migrations as shippedSteps } from '../../migrations/index.ts';
import { faultOfCopy } from '../backup/fault.ts';
import { differingTables, readManifest, tableHashes } from '../backup/manifest.ts';
import { CollectionError, withStorageErrors } from '../errors.ts';
import { openReader } from '../file/connection.ts';
import { checkIdentity } from '../file/file-header.ts';
import { makeFolder, syncFile, syncFolder } from '../file/files.ts';
import { applicationId, layout } from '../file/layout.ts';
import { migrate } from '../file/migrate.ts';
import { type BagCheck, type BagFinding, type BagSource, checkBag, folderSource } from './bag.ts';
import { archiveLayout, isZipName } from './make-archive.ts';
import { readTables, type TablesPackage } from './tables.ts';
import { zipSource } from './zip-bag.ts';

/**
 * Where a restored database came from: `verified`, the archive's own, just as it was; `rebuilt`, made again
 * from the tables beside it, which are as they were; `altered`, the archive's own, readable and sound in
 * itself but not the one that was archived.
 */
export type DatabaseOrigin = 'verified' | 'rebuilt' | 'altered';

export interface TakenBack {
  database: DatabaseOrigin;
  photos: number;
  findings: BagFinding[];
}

export interface TakeBackOptions {
  /** The archive: a ZIP file or a folder. */
  archive: string;
  /** The collection's folder: not there yet, or empty. */
  dir: string;
  at: string;
  signal?: AbortSignal | undefined;
  onProgress?: ((done: number, total: number, stage: 'checking' | 'unpacking') => void) | undefined;
}

const sourceOf = async (archive: string): Promise<BagSource> => {
  const stat = statSync(archive, { throwIfNoEntry: false });
  if (!stat) throw new CollectionError({ kind: 'no-archive', path: archive });
  if (stat.isDirectory()) return folderSource(archive);
  return zipSource(archive).catch(cause => {
    throw new CollectionError(
      { kind: 'unreadable-archive', path: archive, zip: isZipName(archive) },
      { cause },
    );
  });
};

const copyOut = async (source: BagSource, name: string, to: string): Promise<void> => {
  mkdirSync(dirname(to), { recursive: true });
  await pipeline(Readable.from(source.open(name)), createWriteStream(to));
  syncFile(to);
};

/** The database again from the tables, each of which reads as the archive's description of it says. */
const rebuild = async (source: BagSource, staged: string, work: string, at: string): Promise<boolean> => {
  const folder = join(work, 'tables');
  for (const name of source.names)
    if (name.startsWith(`${archiveLayout.tables}/`))
      await copyOut(source, name, join(folder, name.slice(archiveLayout.tables.length + 1)));
  const described = JSON.parse(readFileSync(join(folder, 'datapackage.json'), 'utf8')) as TablesPackage;
  const steps = Object.entries(shippedSteps).slice(0, described.playworn.schema);
  if (steps.length < described.playworn.schema)
    throw new CollectionError({ kind: 'newer-archive', schema: described.playworn.schema });
  const sqlite = new DatabaseFile(staged);
  try {
    sqlite.pragma(`application_id = ${applicationId}`);
    await migrate(sqlite, at, Object.fromEntries(steps));
    sqlite.pragma('foreign_keys = OFF');
    sqlite.transaction(() =>
      readTables(sqlite, described, path => readFileSync(join(folder, path), 'utf8')),
    )();
    if ((sqlite.pragma('foreign_key_check') as unknown[]).length > 0) return false;
    await copyOut(source, archiveLayout.manifest, join(work, 'manifest.json')).catch(() => {});
    const read = readManifest(join(work, 'manifest.json'));
    return !('manifest' in read) || differingTables(read.manifest.tables, tableHashes(sqlite)).length === 0;
  } finally {
    sqlite.close();
    rmSync(folder, { recursive: true, force: true });
  }
};

const tablesAreSound = (source: BagSource, { sound }: BagCheck): boolean => {
  const tables = [...source.names].filter(name => name.startsWith(`${archiveLayout.tables}/`));
  return tables.length > 1 && tables.every(name => sound.has(name));
};

const isReadable = (path: string): boolean => {
  try {
    checkIdentity(path, false, { toWrite: false });
    return faultOfCopy(path) === undefined;
  } catch (error) {
    if (error instanceof CollectionError && error.code === 'newer') throw error;
    return false;
  }
};

/** Lays the best database that the archive has at `staged`; null where it has none that can be used. */
const stageDatabase = async (
  source: BagSource,
  check: BagCheck,
  { staged, work, at }: { staged: string; work: string; at: string },
): Promise<DatabaseOrigin | null> => {
  const asArchived = check.sound.has(archiveLayout.database);
  const usable = async (): Promise<boolean> => {
    rmSync(staged, { force: true });
    if (!source.names.has(archiveLayout.database)) return false;
    const unpacked = await copyOut(source, archiveLayout.database, staged).then(
      () => true,
      () => false,
    );
    return unpacked && isReadable(staged);
  };
  if (asArchived && (await usable())) return 'verified';
  rmSync(staged, { force: true });
  if (tablesAreSound(source, check) && (await rebuild(source, staged, work, at))) return 'rebuilt';
  if (await usable()) return 'altered';
  return null;
};

const photoName = /^data\/photos\/([0-9a-f]{2})\/([0-9a-f]{62}\.[a-z]+)$/;

const stagePhotos = async (
  source: BagSource,
  { sound }: BagCheck,
  into: string,
  { signal, onProgress }: TakeBackOptions,
): Promise<number> => {
  const photos = [...source.names].filter(name => sound.has(name) && photoName.test(name)).sort();
  for (const [i, name] of photos.entries()) {
    signal?.throwIfAborted();
    onProgress?.(i, photos.length, 'unpacking');
    const [, shelf, file] = photoName.exec(name)!;
    await copyOut(source, name, join(into, shelf!, file!));
  }
  return photos.length;
};

/** Photographs that the database shows and the archive never had. */
const neverArchived = (staged: string, source: BagSource): BagFinding[] => {
  const database = openReader(staged);
  try {
    const held = new Set(
      [...source.names].flatMap(name => photoName.exec(name)?.slice(1, 3).join('').slice(0, 64) ?? []),
    );
    const shown = database
      .prepare('SELECT DISTINCT sha256 FROM photo ORDER BY sha256')
      .pluck()
      .all() as string[];
    return shown
      .filter(sha256 => !held.has(sha256))
      .map(sha256 => ({
        file: `data/photos/${sha256.slice(0, 2)}/${sha256.slice(2)}`,
        kind: 'missing' as const,
      }));
  } finally {
    database.close();
  }
};

const onlyOnce = (findings: BagFinding[], more: BagFinding[]): BagFinding[] => [
  ...findings,
  ...more.filter(({ file }) => !findings.some(finding => finding.file.startsWith(`${file}.`))),
];

/**
 * Compares every file of an archive with its manifests, and takes nothing out of it. Throws CollectionError
 * 'missing' or 'damaged' where it cannot be read at all, and the signal's reason.
 */
export const checkArchive = async ({
  archive,
  signal,
  onProgress,
}: Pick<TakeBackOptions, 'archive' | 'signal' | 'onProgress'>): Promise<{
  files: number;
  findings: BagFinding[];
}> => {
  const source = await sourceOf(archive);
  const { findings } = await checkBag(source, (done, total) => {
    signal?.throwIfAborted();
    onProgress?.(done, total, 'checking');
  });
  return { files: source.names.size, findings };
};

/**
 * Makes a collection from an archive. Every file is compared with the archive's manifests first; what is
 * missing, altered or not listed is told by name, and the rest comes back: photographs one by one, and the
 * database as it was archived, else made again from its tables, else as it lies where it is sound in itself.
 * The collection is made beside its folder and appears whole. Throws CollectionError 'exists' (a collection,
 * or anything else, is there), 'missing', 'newer', 'damaged' (no database can be had), 'disk-full',
 * 'read-only', and the signal's reason.
 */
export const takeBack = (options: TakeBackOptions): Promise<TakenBack> =>
  withStorageErrors(options.dir, async () => {
    const { archive, dir, at, signal, onProgress } = options;
    if (existsSync(dir) && (!statSync(dir).isDirectory() || readdirSync(dir).length > 0))
      throw new CollectionError({ kind: 'folder-not-empty', path: dir });
    const source = await sourceOf(archive);
    const check = await checkBag(source, (done, total) => {
      signal?.throwIfAborted();
      onProgress?.(done, total, 'checking');
    });
    const work = `${dir}.part`;
    rmSync(work, { recursive: true, force: true });
    makeFolder(dirname(dir));
    try {
      const staging = join(work, 'collection');
      mkdirSync(staging, { recursive: true });
      const staged = layout(staging).database;
      const database = await stageDatabase(source, check, { staged, work, at });
      if (!database)
        throw new CollectionError({
          kind: 'archive-without-database',
          path: archive,
          files: check.findings.map(finding => finding.file),
        });
      const photos = await stagePhotos(source, check, layout(staging).photos, options);
      const findings = onlyOnce(check.findings, neverArchived(staged, source));
      for (const suffix of ['-wal', '-shm']) rmSync(`${staged}${suffix}`, { force: true });
      syncFolder(staging);
      if (existsSync(dir)) rmSync(dir, { recursive: true });
      renameSync(staging, dir);
      syncFolder(dirname(dir));
      return { database, photos, findings };
    } finally {
      rmSync(work, { recursive: true, force: true });
    }
  });
