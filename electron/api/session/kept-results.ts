import { existsSync } from 'node:fs';
import type { Collection } from '../../../db/collection.ts';
import { layout } from '../../../db/file/layout.ts';
import {
  fileText,
  historyText,
  readWorkedOut,
  type WorkedOut,
  writeWorkedOut,
} from '../../../db/file/worked-out.ts';
import type { SessionCache } from './cache.ts';

/** A result that outlives the session; asked on closing, while the collection is still open. */
export interface Kept {
  /** True where it is not as it was read. */
  isNew(): boolean;
  /** Its bytes, or null where there is nothing that stands. */
  make(): Promise<Uint8Array | null>;
}

/** Bytes that stood when the collection was opened: the changes that were counted then, and the day. */
export interface AsOfOpening {
  bytes: Uint8Array;
  at: number;
  today: string;
}

/**
 * What a session worked out and the next one need not, where it takes long enough: in a file beside the collection. It stands
 * only for the very content, day, program and machine of which it was made, so that whatever is read of it is what would have been
 * worked out at the opening.
 */
export interface KeptResults {
  /** What was kept under this name, as of the opening; undefined where there is none. It is given once. */
  of(name: string): Promise<AsOfOpening | undefined>;
  /** Has a result kept when the collection closes. */
  keep(name: string, kept: Kept): void;
}

interface Keeping {
  cache: SessionCache;
  current(): Collection | null;
  today(): Promise<string>;
  /** Tells one build of the program from another; without it nothing is kept. */
  build?: (() => string) | undefined;
}

/** Changes with the way in which results are written. */
const format = 1;

export const keepResults = ({ cache, current, today, build }: Keeping) => {
  let openedAt = 0;
  let read: WorkedOut | null | undefined;
  /** The content at the opening, and what was read by it. */
  let content: { file: string; history: string } | undefined;
  let readAs: string | undefined;
  const keeping = new Map<string, Kept>();

  const programText = () => `${format} ${build?.()} ${process.versions.v8} ${process.arch}`;
  const keyOf = (file: string, history: string, day: string) =>
    JSON.stringify([file, history, day, programText()]);

  const results: KeptResults = {
    of: async name => {
      const collection = current();
      if (!collection || !content) return undefined;
      const [of, at] = [content, openedAt];
      const day = await today();
      // Another may have been opened meanwhile.
      if (content !== of) return undefined;
      readAs ??= keyOf(of.file, of.history, day);
      read ??= readWorkedOut(collection.dir, readAs);
      const bytes = read?.get(name);
      // It is taken once, and then held by who took it.
      read?.delete(name);
      return bytes && { bytes, at, today: day };
    },
    keep: (name, kept) => {
      keeping.set(name, kept);
    },
  };

  /** To be called while the collection is still open; saves what is to be kept when it is closed. */
  const closing = async (): Promise<() => void> => {
    const collection = current();
    const nothing = () => undefined;
    if (!build || !collection || collection.readOnly) return nothing;
    const at = cache.now();
    const { dir } = collection;
    const day = await today();
    const history = historyText(collection.read.sqlite);
    if (at === openedAt && ![...keeping.values()].some(kept => kept.isNew()))
      return () => {
        if (existsSync(layout(dir).wal)) return;
        // What closing writes is no change, but the file has another time.
        const key = keyOf(fileText(dir), history, day);
        const before = readAs === undefined || readAs === key ? null : readWorkedOut(dir, readAs);
        if (before) writeWorkedOut(dir, key, before);
      };
    const sections: WorkedOut = new Map();
    for (const [name, kept] of keeping) {
      // What cannot be made is told where it is asked for.
      const bytes = await kept.make().catch(() => null);
      if (bytes) sections.set(name, bytes);
    }
    // An action that came meanwhile is not in them.
    const isStillSo = cache.now() === at && historyText(collection.read.sqlite) === history;
    if (sections.size === 0 || !isStillSo) return nothing;
    return () => {
      // With a log that could not be written into the file, that is not all of the content.
      if (existsSync(layout(dir).wal)) return;
      writeWorkedOut(dir, keyOf(fileText(dir), history, day), sections);
    };
  };

  return {
    results,
    closing,
    opened: () => {
      const collection = current();
      openedAt = cache.now();
      read = undefined;
      readAs = undefined;
      keeping.clear();
      content =
        build && collection
          ? { file: fileText(collection.dir), history: historyText(collection.read.sqlite) }
          : undefined;
    },
  };
};
