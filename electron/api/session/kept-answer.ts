import { slot } from './cache.ts';
import type { Session } from './session.ts';

/** An answer, and of what: the changes counted when it was begun, and its day. */
export interface Answered<Answer> {
  at: number;
  today: string;
  answer: Answer;
}

/** Where an answer is held, and kept for the next session; it is what JSON can say. */
export const keptAnswer = <Answer>(name: string) => {
  const place = slot<Answered<Answer> | null>(() => null);
  const taking = slot<{ done: Promise<void> | null; taken: Answered<Answer> | null }>(() => ({
    done: null,
    taken: null,
  }));

  const isOfNow = async (session: Session, found: Answered<Answer>) =>
    found.today === (await session.today()) && found.at === session.cache.now();

  const take = async (session: Session): Promise<void> => {
    const { cache } = session;
    const once = cache.of(taking);
    session.kept.keep(name, {
      isNew: () => cache.of(place) !== once.taken,
      make: async () => {
        const found = cache.of(place);
        return found && (await isOfNow(session, found)) ? Buffer.from(JSON.stringify(found.answer)) : null;
      },
    });
    const found = await session.kept.of(name);
    if (!found || cache.of(taking) !== once) return;
    const { bytes, at, today } = found;
    once.taken = { at, today, answer: JSON.parse(Buffer.from(bytes).toString()) };
    cache.put(place, once.taken);
  };

  /** The last answer, which may be of before a change; null where there is none. */
  const last = async (session: Session): Promise<Answered<Answer> | null> => {
    const once = session.cache.of(taking);
    once.done ??= take(session);
    await once.done;
    return session.cache.of(place);
  };

  /** Holds an answer, unless something has changed since it was begun. */
  const put = ({ cache }: Session, answered: Answered<Answer>): void => {
    if (cache.now() === answered.at) cache.put(place, answered);
  };

  /** The answer that `work` gives, or gave since the last change. */
  const given = async (session: Session, work: () => Promise<Answer>): Promise<Answer> => {
    const found = await last(session);
    if (found && (await isOfNow(session, found))) return found.answer;
    const [at, today] = [session.cache.now(), await session.today()];
    const answer = await work();
    put(session, { at, today, answer });
    return answer;
  };

  return { last, put, given };
};
