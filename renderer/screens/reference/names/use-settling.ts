import { useEffect, useRef, useState } from 'react';
import type { SettledNames, WaitingName } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';

type Settlement = Parameters<typeof api.names.settle>[0]['settlement'];

const counted = (number: number, what: string) => `${number} ${number === 1 ? what : `${what}s`}`;

const said = ({ name, names, casting, cars, sales }: SettledNames): string => {
  const what = names === 1 ? name : `${names} names`;
  if (casting === null) return names === 1 ? `${what} is not a car` : `${what} are not cars`;
  return `${what} settled: ${counted(cars, 'car')} and ${counted(sales, 'sale record')} identified`;
};

/** A group of spellings by the one that is written most often. */
export const keyOf = (name: WaitingName): string => name.spellings[0]?.text ?? name.name;

/**
 * Settles names one after the other, however fast the keys come: a name leaves the list as soon as it is settled, and is back where the
 * service refuses it or it is undone.
 */
export const useSettling = (waiting: readonly WaitingName[]) => {
  const [gone, setGone] = useState<ReadonlySet<string>>(new Set());
  const [hasSettled, setHasSettled] = useState(false);
  const turn = useRef<Promise<unknown>>(Promise.resolve());
  useEffect(() => {
    const there = new Set(waiting.map(keyOf));
    setGone(before => {
      const still = [...before].filter(key => there.has(key));
      return still.length === before.size ? before : new Set(still);
    });
  }, [waiting]);
  const settle = useAction(
    ({ texts, settlement }: { texts: string[]; settlement: Settlement }) => {
      const done = turn.current.then(() => api.names.settle({ texts, settlement }));
      turn.current = done.catch(() => undefined);
      return done.catch((error: unknown) => {
        setGone(before => new Set([...before].filter(key => !texts.includes(key))));
        throw error;
      });
    },
    { label: (_, done) => said(done), failure: 'That name could not be settled' },
  );
  return {
    /** Something was settled here already, perhaps as the first casting of all. */
    hasSettled,
    names: waiting.filter(name => !gone.has(keyOf(name))),
    settle: (texts: string[], settlement: Settlement) => {
      if (texts.length === 0) return;
      setGone(before => new Set([...before, ...texts]));
      setHasSettled(true);
      settle.mutate({ texts, settlement });
    },
  };
};
