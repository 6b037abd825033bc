import { setImmediate as othersTurn } from 'node:timers/promises';
import type { Database } from 'better-sqlite3';
import type { CheckStep, Finding } from '../../valuation/wording/storage/facts.ts';
import type { Collection } from '../collection.ts';
import { asCollectionError, CollectionError, withStorageErrors } from '../errors.ts';
import { layout } from '../file/layout.ts';
import { faultOfPhoto, remakeCopies } from '../photos/photo-check.ts';
import { originalPath, storedPhotos } from '../photos/photo-files.ts';
import { faultySearchIndexes } from '../search/search-check.ts';
import { faultOfBackup } from './fault.ts';
import { holdBackups } from './keep.ts';
import { collectionId } from './lineage.ts';
import { type BackupInfo, describedBackups, listBackups } from './list.ts';
import { differingTables, historyMark, photoHashes, tableHashes } from './manifest.ts';

export interface CheckOptions {
  /** Called with the steps done, all steps, and what is being looked at; null at the end. */
  onProgress?: (done: number, total: number, step: CheckStep | null) => void;
  /** Aborting rejects with the signal's reason between two steps. */
  signal?: AbortSignal;
  /** The file of the worker that decodes HEIC, where it does not lie as in a checkout. */
  heicWorker?: URL | undefined;
}

const checkStructure = (sqlite: Database): Finding[] => {
  const faults = (sqlite.pragma('integrity_check(20)') as { integrity_check: string }[])
    .map(row => row.integrity_check)
    .filter(text => text !== 'ok');
  return faults.length === 0
    ? [{ level: 'ok', subject: 'database', fault: null }]
    : faults.map(detail => ({ level: 'damage', subject: 'database', fault: { kind: 'structure', detail } }));
};

const checkReferences = (sqlite: Database): Finding[] => {
  const broken = sqlite.pragma('foreign_key_check') as { table: string }[];
  const tables = [...new Set(broken.map(row => row.table))].sort();
  return [
    { level: broken.length > 0 ? 'damage' : 'ok', subject: 'references', broken: broken.length, tables },
  ];
};

const checkSearch = async ({ read, write, readOnly }: Collection): Promise<Finding[]> => {
  const incomplete = readOnly
    ? faultySearchIndexes(read.sqlite, undefined)
    : await write.db.connection().execute(async () => faultySearchIndexes(read.sqlite, write.sqlite));
  return [{ level: incomplete.length > 0 ? 'warning' : 'ok', subject: 'search', incomplete }];
};

/**
 * Rows by content hash against the newest backup, where nothing has been done since: finds what
 * no structure shows.
 */
const checkAgainstBackup = (sqlite: Database, dir: string): Finding[] => {
  const id = collectionId(sqlite);
  const newest = describedBackups(dir).find(({ manifest }) => [id, undefined].includes(manifest.collection));
  if (!newest || newest.manifest.schema !== sqlite.pragma('user_version', { simple: true })) return [];
  const { history, tables, collection } = newest.manifest;
  const now = tableHashes(sqlite);
  let differing = differingTables(tables, now);
  if (history === undefined && differing.some(table => /^change/.test(table))) return [];
  if (history !== undefined && history !== historyMark(sqlite)) return [];
  // Old history goes in time, which leaves fewer rows; an id is given to a collection that had none.
  differing = differing.filter(
    table =>
      !(/^change/.test(table) && (now[table]?.rows ?? 0) < (tables[table]?.rows ?? 0)) &&
      !(table === 'setting' && collection === undefined),
  );
  return [{ level: differing.length > 0 ? 'damage' : 'ok', subject: 'rows', differing, backup: newest.name }];
};

const summaryOf = (backups: BackupInfo[], sound: number): Finding => {
  const count = (kind: BackupInfo['kind']) => backups.filter(backup => backup.kind === kind).length;
  const of = count('backup');
  return {
    level: of === 0 ? 'warning' : 'ok',
    subject: 'backups',
    sound,
    of,
    setAside: count('set aside'),
    other: count('other'),
  };
};

/**
 * Verifies a collection: the database's structure, indexes and references, its full-text index and its rows
 * against the newest backup, every photograph against the hash taken when it was added, every backup against
 * its description. Changes nothing but smaller copies of photographs that do not decode, which are made
 * again. Findings are facts, see `findingText`; the last stands for what a check cannot know.
 */
export const checkCollection = async (
  collection: Collection,
  { onProgress, signal, heicWorker }: CheckOptions = {},
): Promise<Finding[]> => {
  const {
    dir,
    read: { sqlite },
  } = collection;
  const photos = await withStorageErrors(dir, () => photoHashes(sqlite));
  const backups = await listBackups(dir);
  const toCheck = backups.filter(backup => backup.kind === 'backup');
  const findings: Finding[] = [];
  const total = 4 + photos.length + toCheck.length;
  let done = 0;
  const step = async (what: CheckStep, work: () => Finding[] | Promise<Finding[]>) => {
    signal?.throwIfAborted();
    onProgress?.(done, total, what);
    await othersTurn();
    try {
      findings.push(...(await work()));
    } catch (error) {
      const reason = asCollectionError(error, layout(dir).database);
      if (!(reason instanceof CollectionError)) throw error;
      findings.push({ level: 'damage', subject: 'step', step: what, detail: reason.message });
    }
    done++;
  };
  const release = holdBackups(
    dir,
    toCheck.map(backup => backup.name),
  );
  try {
    await step({ kind: 'database' }, () => checkStructure(sqlite));
    await step({ kind: 'references' }, () => checkReferences(sqlite));
    await step({ kind: 'search' }, () => checkSearch(collection));
    await step({ kind: 'rows' }, () => checkAgainstBackup(sqlite, dir));

    let intact = 0;
    const copies = { remade: 0, failed: 0 };
    for (const [place, sha256] of photos.entries())
      await step({ kind: 'photograph', number: place + 1, of: photos.length }, async () => {
        const fault = await faultOfPhoto(dir, sha256, signal);
        const path = originalPath(dir, sha256) ?? null;
        if (fault) return [{ level: 'damage', subject: 'photograph', sha256, path, fault }];
        intact++;
        const { remade, failed } = await remakeCopies(dir, sha256, heicWorker);
        copies.remade += remade;
        copies.failed += failed;
        return [];
      });
    const used = new Set(photos);
    const spare = storedPhotos(dir).filter(sha256 => !used.has(sha256)).length;
    if (photos.length + spare > 0)
      findings.push({ level: 'ok', subject: 'photographs', intact, of: photos.length, spare });
    if (copies.remade + copies.failed > 0)
      findings.push({ level: copies.failed > 0 ? 'warning' : 'ok', subject: 'copies', ...copies });

    let sound = 0;
    for (const { name } of toCheck)
      await step({ kind: 'backup', name }, () => {
        const fault = faultOfBackup(dir, name);
        if (fault) return [{ level: 'damage', subject: 'backup', name, fault }];
        sound++;
        return [];
      });
    findings.push(summaryOf(backups, sound), { level: 'ok', subject: 'limits' });
    onProgress?.(total, total, null);
    return findings;
  } finally {
    release();
  }
};
