import { useEffect, useRef, useState } from 'react';
import { useAction } from '../../../components/actions/use-action.ts';

/** How what waits is settled, and what is said of it. */
interface Settling<Settlement, Done> {
  write: (keys: string[], settlement: Settlement) => Promise<Done>;
  said: (done: Done) => string;
  failure: string;
}

/**
 * Settles rows that wait one after the other, however fast the keys come: a row leaves the list as soon as it
 * is settled, and is back where the service refuses it or it is undone.
 */
export const useSettling = <Row, Settlement, Done>(
  waiting: readonly Row[],
  keyOf: (row: Row) => string,
  { write, said, failure }: Settling<Settlement, Done>,
) => {
  const [gone, setGone] = useState<ReadonlySet<string>>(new Set());
  const [hasSettled, setHasSettled] = useState(false);
  const turn = useRef<Promise<unknown>>(Promise.resolve());
  useEffect(() => {
    const there = new Set(waiting.map(keyOf));
    setGone(before => {
      const still = [...before].filter(key => there.has(key));
      return still.length === before.size ? before : new Set(still);
    });
  }, [waiting, keyOf]);
  const settle = useAction(
    ({ keys, settlement }: { keys: string[]; settlement: Settlement }) => {
      const done = turn.current.then(() => write(keys, settlement));
      turn.current = done.catch(() => undefined);
      return done.catch((error: unknown) => {
        setGone(before => new Set([...before].filter(key => !keys.includes(key))));
        throw error;
      });
    },
    { label: (_, done) => said(done), failure },
  );
  return {
    /** Something was settled here already, perhaps as the first casting of all. */
    hasSettled,
    left: waiting.filter(row => !gone.has(keyOf(row))),
    settle: (keys: string[], settlement: Settlement) => {
      if (keys.length === 0) return;
      setGone(before => new Set([...before, ...keys]));
      setHasSettled(true);
      settle.mutate({ keys, settlement });
    },
  };
};
