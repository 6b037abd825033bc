import type { Transaction } from 'kysely';
import { backUpIfDue } from '../../../db/backup/backup.ts';
import type { Restored } from '../../../db/backup/restore.ts';
import type { Collection } from '../../../db/collection.ts';
import { type Actions, changesOf, newestAction } from '../../../db/history/changes.ts';
import { runAction, runBulk } from '../../../db/history/history.ts';
import { oneAtATime } from '../../../db/one-at-a-time.ts';
import { createCollection } from '../../../db/open-collection.ts';
import { readSetting, writeSetting } from '../../../db/records/collection/settings.ts';
import type { Schema } from '../../../db/schema.ts';
import type { ReportAssets } from '../../../reports/typesetting/report-assets.ts';
import type { CollectionState } from '../views.ts';
import { createCache, type SessionCache } from './cache.ts';
import { holdCollection } from './held-collection.ts';
import { type KeptResults, keepResults } from './kept-results.ts';

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
  /** Tells one build of the program from another; without it nothing that was worked out outlives the session. */
  build?: () => string;
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
  /** What was worked out before, and is to be had when the collection is opened again. */
  kept: KeptResults;
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
  const cache = createCache();
  const at = () => options.now().toISOString();
  let lastBackupCheck = 0;
  /** The newest action of which the cache has heard. */
  let heardOf = 0;
  const today = async (): Promise<string> => {
    const fixed = held.current && (await readSetting(held.current.read.db, 'today'));
    return fixed || isoDay(options.now());
  };
  const kept = keepResults({ cache, current: () => held.current, today, build: options.build });
  const held = holdCollection({
    host: options.host,
    at,
    beforeOpening: options.beforeOpening,
    onOpened: collection => {
      heardOf = newestAction(collection.read.sqlite);
      lastBackupCheck = options.now().getTime();
      kept.opened();
    },
    onClosing: kept.closing,
    release: () => cache.clear(),
  });
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
      held.tell(`The day's backup failed: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const changed = async (replayed?: number) => {
    const current = held.need();
    const { sqlite } = current.read;
    const newest = newestAction(sqlite);
    const actions: Actions =
      replayed === undefined ? { first: heardOf + 1, last: newest } : { first: replayed, last: replayed };
    if (replayed === undefined) heardOf = newest;
    cache.changed(changesOf(sqlite, actions));
    await backUpDaily(current);
  };
  const run = async <T>(runner: typeof runAction, label: string, work: Work<T>): Promise<T> => {
    const result = await runner(held.need(), label, at(), work);
    await changed();
    return result;
  };

  // Opening, closing and starting a collection never overlap.
  const inTurn = oneAtATime();

  return {
    options,
    get collection() {
      return held.current;
    },
    cache,
    at,
    kept: kept.results,
    today,
    state: () => {
      const { defaultDir, demoDir, host, version } = options;
      return { ...held.state(), defaultDir, demoDir, host, version };
    },
    create: (dir, { reportingCurrency, owner }) =>
      inTurn(async () => {
        options.beforeOpening?.(dir);
        await createCollection(dir, { at: at(), reportingCurrency });
        await held.open(dir);
        if (owner) await run(runAction, 'Started the collection', trx => writeSetting(trx, 'owner', owner));
      }),
    open: dir => inTurn(() => held.open(dir)),
    close: () => inTurn(held.close),
    restore: (dir, name, unverified) => inTurn(() => held.restore(dir, name, unverified)),
    tell: held.tell,
    changed,
    act: (label, work) => run(runAction, label, work),
    bulk: (label, work) => run(runBulk, label, work),
  };
};
