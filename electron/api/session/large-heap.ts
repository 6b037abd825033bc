import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** From so many cars on, what reading them and working them out leaves behind is more than what is held of them. */
export const manyCars = 20_000;

/** When nobody has asked for anything for so long, in ms, a service gives back once what it no longer needs. */
export const restsAfter = 5000;

/** Lets go of what nobody refers to, and gives back the pages that this frees; V8 by itself keeps them. */
const giveBack = (): void => {
  setFlagsFromString('--expose-gc');
  const collect: (how: object) => void = runInNewContext('gc');
  collect({ type: 'major', execution: 'sync', flavor: 'last-resort' });
};

let rest: NodeJS.Timeout | null = null;

const giveBackAtRest = (): void => {
  if (rest) clearTimeout(rest);
  rest = setTimeout(() => {
    rest = null;
    giveBack();
  }, restsAfter).unref();
};

/** To be called for every call of a procedure, before and after: what is to be given back waits until nobody asks. */
export const atWork = (): void => {
  if (rest) giveBackAtRest();
};

/**
 * To be called where so many cars are read or worked out, before and after. V8 lets its heap grow to a multiple of
 * what is held before it looks for what can go, and neither its pages nor what hung on them outside come back whole.
 * Where there are many cars it looks when the heap has grown by half (by a quarter saves 4 MB more of 100,000 cars,
 * for a tenth more processor time), and once the work is over and nobody asks for anything, which then takes 0.2 s. It
 * stays so until the process ends; a small collection, where an import would take longer, never asks for it. V8 reads
 * the switch whenever it sets its next bound.
 */
export const heedHeap = (cars: number): void => {
  if (cars < manyCars) return;
  setFlagsFromString('--heap-growing-percent=50');
  giveBackAtRest();
};
