import { resolve } from 'node:path';
import type { Transaction } from 'kysely';
import { backUpIfDue } from '../../../db/backup/backup.ts';
import { type Restored, restore as restoreBackup } from '../../../db/backup/restore.ts';
import { problemOf } from '../../../db/backup/survey.ts';
import type { Collection } from '../../../db/collection.ts';
import { asCollectionError, CollectionError } from '../../../db/errors.ts';
import { type Actions, changesOf, newestAction } from '../../../db/history/changes.ts';
import { runAction, runBulk } from '../../../db/history/history.ts';
import { oneAtATime } from '../../../db/one-at-a-time.ts';
import { collectionExists, createCollection } from '../../../db/open-collection.ts';
import { readSetting, writeSetting } from '../../../db/records/collection/settings.ts';
import type { Schema } from '../../../db/schema.ts';
import type { ReportAssets } from '../../../reports/typesetting/report-assets.ts';
import type { CollectionState } from '../views.ts';
import { createCache, type SessionCache } from './cache.ts';
import { refused } from './errors.ts';
import { openOrRead } from './opening.ts';

/** What a host tells the service about itself. */
export interface SessionOptions {
  host: CollectionState['host'];
  /** The host's clock: the one place from which times enter. */
  now: () => Date;
  /** Where a new collection goes when no folder is named, and where the demo goes. */
  defaultDir: string;
  demoDir: string;
  version: string;
  /** Hears of every folder before a collection in it is opened or made. */
  beforeOpening?: (dir: string) => void;
  /**
   * Worker files, and the files of reports, where they do not lie as in a checkout: a bundled
   * host says where.
   */
  workers?: { report?: URL; choose?: URL; heic?: URL };
  reportAssets?: ReportAssets;
  /** ISO instant to stamp into files in place of their effective date. */
  stampedAt?: string;
}

type Work<T> = (trx: Transaction<Schema>) => Promise<T>;

/** The service's state: the collection that is open, or none. One per host process. */
export interface Session {
  options: SessionOptions;
  /** The open collection, or null. */
  readonly collection: Collection | null;
  /** All that is remembered between calls, and what has changed since. */
  cache: SessionCache;
  /** The instant, as ISO 8601 in UTC. */
  at(): string;
  /** The effective date: the host's day, or the demo's own. */
  today(): Promise<string>;
  state(): CollectionState;
  create(dir: string, settings: { reportingCurrency: string; owner: string }): Promise<void>;
  open(dir: string): Promise<void>;
  close(): Promise<void>;
  /**
   * Puts a backup in the place of a folder's collection, open or not, and opens it; see db/backup/restore.
   */
  restore(dir: string, name: string, unverified: boolean): Promise<Restored>;
  /** Adds a sentence that the owner must be told once. */
  tell(notice: string): void;
  /**
   * Forgets what was remembered of all that was changed by actions since it was last called, or by one that
   * was undone or done again.
   */
  changed(replayed?: number): Promise<void>;
  /** Runs a write as one action of history and one undo; the label is a sentence in the past tense. */
  act<T>(label: string, work: Work<T>): Promise<T>;
  /** The same for thousands of rows. */
  bulk<T>(label: string, work: Work<T>): Promise<T>;
}

const isoDay = (date: Date): string =>
  [date.getFullYear(), date.getMonth() + 1, date.getDate()]
    .map((part, place) => String(part).padStart(place === 0 ? 4 : 2, '0'))
    .join('-');

const hour = 3_600_000;

/** Makes the state of a service that has no collection open yet. Call `close` before the process ends. */
export const createSession = (options: SessionOptions): Session => {
  let collection: Collection | null = null;
  const cache = createCache();
  const at = () => options.now().toISOString();

  const need = (): Collection => {
    if (!collection) throw refused('No collection is open. Open one, or start a new one.', 'no-collection');
    return collection;
  };
  let notices: string[] = [];
  let problem: CollectionState['problem'] = null;
  let readOnlyBecause: string | null = null;
  let lastBackupCheck = 0;
  /** The newest action of which the cache has heard. */
  let heardOf = 0;
  const close = async () => {
    const open = collection;
    collection = null;
    cache.clear();
    notices = (await open?.close({ at: at() }))?.notices ?? [];
  };
  const restore = async (dir: string, name: string, unverified: boolean): Promise<Restored> => {
    const before = collection;
    const isOpen = before !== null && resolve(before.dir) === resolve(dir);
    if (isOpen && before.readOnly) await close();
    const open = isOpen && !before.readOnly ? { collection: before, close } : undefined;
    options.beforeOpening?.(dir);
    try {
      const restored = await restoreBackup(dir, name, { at: at(), host: options.host, open, unverified });
      await openNext(dir);
      return restored;
    } catch (error) {
      if (before && !collection) await openNext(before.dir);
      throw error;
    }
  };
  // The one that is open stays open until the next one is.
  const openNext = async (dir: string) => {
    if (collection?.dir === dir) return;
    if (!collectionExists(dir))
      throw refused(
        `There is no collection in ${dir}. Choose another folder, or start one there.`,
        'missing',
      );
    options.beforeOpening?.(dir);
    const { collection: next, onlyRead } = await openOrRead(dir, { at: at(), host: options.host }).catch(
      (error: unknown) => {
        const reason = asCollectionError(error, dir);
        if (reason instanceof CollectionError) problem = { dir, ...problemOf(reason) };
        throw reason;
      },
    );
    await close();
    collection = next;
    if (onlyRead !== null) readOnlyBecause = onlyRead;
    heardOf = newestAction(next.read.sqlite);
    problem = null;
    lastBackupCheck = options.now().getTime();
    notices.push(...next.notices);
  };
  /**
   * Where a session stays open for days, the first change after each hour looks whether the
   * day's backup is due.
   */
  const backUpDaily = async (current: Collection) => {
    const now = options.now().getTime();
    if (Math.abs(now - lastBackupCheck) < hour) return;
    lastBackupCheck = now;
    try {
      await backUpIfDue(current, { at: at() });
    } catch (error) {
      notices.push(`The day's backup failed: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const changed = async (replayed?: number) => {
    const current = need();
    const { sqlite } = current.read;
    const newest = newestAction(sqlite);
    const actions: Actions =
      replayed === undefined ? { first: heardOf + 1, last: newest } : { first: replayed, last: replayed };
    if (replayed === undefined) heardOf = newest;
    cache.changed(changesOf(sqlite, actions));
    await backUpDaily(current);
  };
  const run = async <T>(runner: typeof runAction, label: string, work: Work<T>): Promise<T> => {
    const open = need();
    const result = await runner(open, label, at(), work);
    await changed();
    return result;
  };

  // Opening, closing and starting a collection never overlap.
  const inTurn = oneAtATime();

  return {
    options,
    get collection() {
      return collection;
    },
    cache,
    at,
    async today() {
      const fixed = collection && (await readSetting(collection.read.db, 'today'));
      return fixed || isoDay(options.now());
    },
    state: () => ({
      open: collection !== null,
      dir: collection?.dir ?? null,
      defaultDir: options.defaultDir,
      demoDir: options.demoDir,
      host: options.host,
      version: options.version,
      notices: [...notices],
      readOnly: collection?.readOnly ?? false,
      readOnlyBecause: collection?.readOnly ? readOnlyBecause : null,
      problem,
    }),
    create: (dir, { reportingCurrency, owner }) =>
      inTurn(async () => {
        options.beforeOpening?.(dir);
        await createCollection(dir, { at: at(), reportingCurrency });
        await openNext(dir);
        if (owner) await run(runAction, 'Started the collection', trx => writeSetting(trx, 'owner', owner));
      }),
    open: dir => inTurn(() => openNext(dir)),
    close: () => inTurn(close),
    restore: (dir, name, unverified) => inTurn(() => restore(dir, name, unverified)),
    tell: notice => {
      notices.push(notice);
    },
    changed,
    act: (label, work) => run(runAction, label, work),
    bulk: (label, work) => run(runBulk, label, work),
  };
};
