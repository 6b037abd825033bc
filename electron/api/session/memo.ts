import type { Kysely } from 'kysely';
import { recordReads } from '../../../db/reads.ts';
import type { Schema } from '../../../db/schema.ts';
import { slot } from './cache.ts';
import { openOf } from './open-collection.ts';
import type { Session } from './session.ts';

interface Remembered<T> {
  key: string;
  at: number;
  reads: Set<string>;
  answer: Promise<T>;
}

/** What a remembered answer is worked out from; whatever it reads here it depends on. */
export interface Sources {
  db: Kysely<Schema>;
  /** Another remembered answer. */
  from<T>(other: Memo<T>): Promise<T>;
  /** What `keyOf` said. */
  key: string;
  session: Session;
}

/** An answer that a session remembers until something that it was worked out from has changed. */
export interface Memo<T> {
  (session: Session): Promise<T>;
  remembered(session: Session): Promise<Remembered<T>>;
  /** True where the answer is remembered, or on its way, and nothing that it was worked out from has changed. */
  stands(session: Session): Promise<boolean>;
}

/**
 * Remembers what `load` answers. What it depends on is what it reads: the tables and settings of its queries,
 * and what other answers it takes have read. Another `keyOf` than before is worked out again.
 */
export const memo = <T>(
  load: (sources: Sources) => Promise<T>,
  keyOf: (session: Session) => Promise<string> | string = () => '',
): Memo<T> => {
  const place = slot<Remembered<T> | null>(() => null);
  const standing = ({ cache }: Session, key: string): Remembered<T> | null => {
    const found = cache.of(place);
    return found?.key === key && cache.lastChange(found.reads) <= found.at ? found : null;
  };
  const remembered = async (session: Session): Promise<Remembered<T>> => {
    const key = await keyOf(session);
    const { cache } = session;
    const found = standing(session, key);
    if (found) return found;
    const reads = new Set<string>();
    const from = async <U>(other: Memo<U>): Promise<U> => {
      const inner = await other.remembered(session);
      const answer = await inner.answer;
      for (const source of inner.reads) reads.add(source);
      return answer;
    };
    const answer = load({ db: recordReads(openOf(session).read.db, reads), from, key, session });
    const made: Remembered<T> = { key, at: cache.now(), reads, answer };
    cache.put(place, made);
    // A failed load is tried again at the next call.
    answer.catch(() => {
      if (cache.of(place) === made) cache.put(place, null);
    });
    return made;
  };
  return Object.assign(async (session: Session) => (await remembered(session)).answer, {
    remembered,
    stands: async (session: Session) => standing(session, await keyOf(session)) !== null,
  });
};
