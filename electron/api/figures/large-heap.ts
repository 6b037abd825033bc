import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** From so many cars on, what reading them and working them out leaves behind is more than what is held of them. */
export const manyCars = 20_000;

/** So long after the last such work, in ms, a service gives back once what it no longer needs. */
export const restsAfter = 5000;

/** Lets go of what nobody refers to, and gives back the pages that this frees; V8 by itself keeps them. */
const giveBack = (): void => {
  setFlagsFromString('--expose-gc');
  const collect: (how: object) => void = runInNewContext('gc');
  collect({ type: 'major', execution: 'sync', flavor: 'last-resort' });
};

let rest: NodeJS.Timeout | null = null;

/**
 * To be called where so many cars are read or worked out, before and after. V8 lets its heap grow to a multiple of
 * what is held before it looks for what can go, and neither its pages nor what hung on them outside come back whole.
 * Where there are many cars it looks when the heap has grown by a quarter, and once when the work is over (0.2 s with
 * 100,000 cars). Working them out takes a tenth longer. It stays so until the process ends; a small collection, where
 * an import would take an eighth longer, never asks for it. V8 reads the switch whenever it sets its next bound.
 */
export const heedHeap = (cars: number): void => {
  if (cars < manyCars) return;
  setFlagsFromString('--heap-growing-percent=25');
  if (rest) clearTimeout(rest);
  rest = setTimeout(giveBack, restsAfter).unref();
};
