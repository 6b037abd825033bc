import { resolve } from 'node:path';
import { type Restored, restore as restoreBackup } from '../../../db/backup/restore.ts';
import { problemOf } from '../../../db/backup/survey.ts';
import type { Collection } from '../../../db/collection.ts';
import { asCollectionError, CollectionError } from '../../../db/errors.ts';
import { collectionExists } from '../../../db/open-collection.ts';
import type { CollectionState } from '../views.ts';
import { refused } from './errors.ts';
import { openOrRead } from './opening.ts';

/** The one collection that a session holds open, or none, and what its owner must be told of it. */
export interface HeldCollection {
  readonly current: Collection | null;
  /** The open collection; refuses where there is none. */
  need(): Collection;
  /** Opens another; the one that is open stays so until the next one is. */
  open(dir: string): Promise<void>;
  close(): Promise<void>;
  /** Puts a backup in the place of a folder's collection, open or not, and opens it. */
  restore(dir: string, name: string, unverified: boolean): Promise<Restored>;
  tell(notice: string): void;
  /** Of the collection's state what follows from the one that is held. */
  state(): Pick<CollectionState, 'open' | 'dir' | 'notices' | 'readOnly' | 'readOnlyBecause' | 'problem'>;
}

interface Holding {
  host: CollectionState['host'];
  /** The instant, as ISO 8601 in UTC. */
  at(): string;
  /** Hears of every folder before a collection in it is opened. */
  beforeOpening?: (dir: string) => void;
  onOpened(collection: Collection): void;
  /**
   * Called before the collection is closed and backed up; what it gives is called afterwards, unless that fails. `release` is
   * called in between, when the collection is no longer held.
   */
  onClosing(): Promise<() => void>;
  release(): void;
}

/** Holds no collection yet. Calls that open, close or restore must not overlap. */
export const holdCollection = ({
  host,
  at,
  beforeOpening,
  onOpened,
  onClosing,
  release,
}: Holding): HeldCollection => {
  let collection: Collection | null = null;
  let notices: string[] = [];
  let problem: CollectionState['problem'] = null;
  let readOnlyBecause: string | null = null;

  const close = async () => {
    const closed = await onClosing();
    const open = collection;
    collection = null;
    release();
    notices = (await open?.close({ at: at() }))?.notices ?? [];
    closed();
  };
  const open = async (dir: string) => {
    if (collection?.dir === dir) return;
    if (!collectionExists(dir))
      throw refused(
        `There is no collection in ${dir}. Choose another folder, or start one there.`,
        'missing',
      );
    beforeOpening?.(dir);
    const { collection: next, onlyRead } = await openOrRead(dir, { at: at(), host }).catch(
      (error: unknown) => {
        const reason = asCollectionError(error, dir);
        if (reason instanceof CollectionError) problem = { dir, ...problemOf(reason) };
        throw reason;
      },
    );
    await close();
    collection = next;
    if (onlyRead !== null) readOnlyBecause = onlyRead;
    problem = null;
    onOpened(next);
    notices.push(...next.notices);
  };
  const restore = async (dir: string, name: string, unverified: boolean): Promise<Restored> => {
    const before = collection;
    const isOpen = before !== null && resolve(before.dir) === resolve(dir);
    if (isOpen && before.readOnly) await close();
    const held = isOpen && !before.readOnly ? { collection: before, close } : undefined;
    beforeOpening?.(dir);
    try {
      const restored = await restoreBackup(dir, name, { at: at(), host, open: held, unverified });
      await open(dir);
      return restored;
    } catch (error) {
      if (before && !collection) await open(before.dir);
      throw error;
    }
  };

  return {
    get current() {
      return collection;
    },
    need: () => {
      if (!collection) throw refused('No collection is open. Open one, or start a new one.', 'no-collection');
      return collection;
    },
    open,
    close,
    restore,
    tell: notice => {
      notices.push(notice);
    },
    state: () => ({
      open: collection !== null,
      dir: collection?.dir ?? null,
      notices: [...notices],
      readOnly: collection?.readOnly ?? false,
      readOnlyBecause: collection?.readOnly ? readOnlyBecause : null,
      problem,
    }),
  };
};
