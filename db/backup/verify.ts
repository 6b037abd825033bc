import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { setImmediate as breathe } from 'node:timers/promises';
import type { Database } from 'better-sqlite3';
import type { Collection } from '../collection.ts';
import { asCollectionError, CollectionError, explain } from '../errors.ts';
import { originalPath, storedPhotos } from '../photos/photo-files.ts';
import { searchDocuments } from '../search/search-documents.ts';
import { backupPaths, listBackups } from './backup.ts';
import { differingTables, photoHashes, readManifest, tableHashes } from './manifest.ts';
import { faultOfBackup } from './restore.ts';

/** One thing that a check found, as a sentence. */
export interface Finding {
  level: 'ok' | 'warning' | 'damage';
  sentence: string;
}

export interface CheckOptions {
  /** Called with the steps done, all steps, and what is being looked at. */
  onProgress?: (done: number, total: number, what: string) => void;
  /** Aborting rejects with the signal's reason between two steps. */
  signal?: AbortSignal;
}

const ok = (sentence: string): Finding => ({ level: 'ok', sentence });
const warning = (sentence: string): Finding => ({ level: 'warning', sentence });
const damage = (sentence: string): Finding => ({ level: 'damage', sentence });

const checkStructure = (sqlite: Database): Finding[] => {
  const faults = (sqlite.pragma('integrity_check(20)') as { integrity_check: string }[])
    .map(row => row.integrity_check)
    .filter(text => text !== 'ok');
  return faults.length === 0
    ? [ok('The database file is well formed.')]
    : faults.map(fault => damage(`The database file is damaged: ${fault}. Restore a backup.`));
};

const checkReferences = (sqlite: Database): Finding[] => {
  const broken = sqlite.pragma('foreign_key_check') as { table: string }[];
  if (broken.length === 0) return [ok('Every row points at rows that exist.')];
  const tables = [...new Set(broken.map(row => row.table))].sort().join(', ');
  return [damage(`${broken.length} rows point at rows that do not exist, in ${tables}. Restore a backup.`)];
};

const checkSearch = (sqlite: Database): Finding[] => {
  const count = (from: string) => Number(sqlite.prepare(`SELECT count(*) FROM ${from}`).pluck().get());
  const differing = searchDocuments.filter(({ index, table }) => count(`${index}_docsize`) !== count(table));
  return differing.length === 0
    ? [ok('The search index holds every row it should.')]
    : [
        warning(
          `The search index is not complete (${differing.map(d => d.kind).join(', ')}); searching may miss rows.`,
        ),
      ];
};

const hashOfFile = async (path: string, signal: AbortSignal | undefined): Promise<string> => {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path, { signal })) hash.update(chunk);
  return hash.digest('hex');
};

/** Rows by content hash against the newest backup, where nothing has been done since: finds what no structure shows. */
const checkAgainstBackup = (sqlite: Database, dir: string, newest: string | undefined): Finding[] => {
  const manifest = newest === undefined ? undefined : readManifest(backupPaths(dir, newest).manifest);
  const schema = sqlite.pragma('user_version', { simple: true });
  if (!manifest || manifest.schema !== schema) return [];
  const differing = differingTables(manifest.tables, tableHashes(sqlite));
  if (differing.length === 0) return [ok('Every row is just as in the newest backup.')];
  if (differing.includes('change') || differing.includes('change_row')) return [];
  return [
    damage(
      `Rows in ${differing.join(', ')} differ from the newest backup though nothing was done since: they were changed outside Playworn or damaged. Compare with the backup ${newest}.`,
    ),
  ];
};

const unknown = ok(
  'What a check cannot know: whether what was entered is true, whether a photograph was already damaged when it was added, and whether rows written since the newest backup were altered by another program.',
);

/**
 * Verifies a collection: the database's structure and references, its rows against the newest backup, every photograph
 * against the hash taken when it was added, every backup against its manifest. Changes nothing. Findings are sentences;
 * the last says what a check cannot know.
 */
export const checkCollection = async (
  collection: Collection,
  { onProgress, signal }: CheckOptions = {},
): Promise<Finding[]> => {
  const { dir, reader: sqlite } = collection;
  const photos = await explain(dir, () => photoHashes(sqlite));
  const backups = await listBackups(dir);
  const findings: Finding[] = [];
  const total = 4 + photos.length + backups.length;
  let done = 0;
  const step = async (what: string, work: () => Finding[] | Promise<Finding[]>) => {
    signal?.throwIfAborted();
    onProgress?.(done, total, what);
    await breathe();
    try {
      findings.push(...(await work()));
    } catch (error) {
      const reason = asCollectionError(error, collection.dir);
      if (!(reason instanceof CollectionError)) throw error;
      findings.push(
        damage(`${what[0]?.toUpperCase()}${what.slice(1)} could not be read to the end. ${reason.message}`),
      );
    }
    done++;
  };

  await step('the database file', () => checkStructure(sqlite));
  await step('references', () => checkReferences(sqlite));
  await step('the search index', () => checkSearch(sqlite));
  await step('rows', () => checkAgainstBackup(sqlite, dir, backups[0]?.name));

  let intact = 0;
  for (const sha256 of photos)
    await step(`photograph ${intact + 1} of ${photos.length}`, async () => {
      const path = originalPath(dir, sha256);
      if (!path) return [damage(`The photograph ${sha256.slice(0, 8)} is missing from the photo folder.`)];
      if ((await hashOfFile(path, signal)) !== sha256)
        return [damage(`The photograph ${path} is not the one that was added: it was altered or damaged.`)];
      intact++;
      return [];
    });
  if (photos.length > 0)
    findings.push(ok(`${intact} of ${photos.length} photographs are just as they were added.`));
  const used = new Set(photos);
  const spare = storedPhotos(dir).filter(sha256 => !used.has(sha256)).length;
  if (spare > 0)
    findings.push(
      ok(`${spare} files in the photo folder belong to nothing now; undo or a backup may need them.`),
    );

  for (const { name } of backups)
    await step(`backup ${name}`, () => {
      const fault = faultOfBackup(dir, name);
      return fault ? [damage(`The backup ${name} is damaged: ${fault}.`)] : [];
    });
  const sound = backups.length - findings.filter(f => f.sentence.startsWith('The backup ')).length;
  findings.push(
    backups.length === 0
      ? warning('There is no backup yet. One is made when the collection is closed after a change.')
      : ok(`${sound} of ${backups.length} backups are just as they were made.`),
    unknown,
  );
  onProgress?.(total, total, 'done');
  return findings;
};
