import type { Session } from './session.ts';

/** Keeps what `load` answered for a session until `version` says that something it rests on has changed. */
export const memo = <T>(
  version: (session: Session) => number | string,
  load: (session: Session) => Promise<T>,
): ((session: Session) => Promise<T>) => {
  const kept = new WeakMap<Session, { version: number | string; answer: Promise<T> }>();
  return session => {
    const wanted = version(session);
    const found = kept.get(session);
    if (found?.version === wanted) return found.answer;
    const answer = load(session);
    kept.set(session, { version: wanted, answer });
    // A failed load is tried again at the next call.
    answer.catch(() => kept.delete(session));
    return answer;
  };
};
