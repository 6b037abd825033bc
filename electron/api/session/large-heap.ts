import { getHeapStatistics, setFlagsFromString } from 'node:v8';
import { collect } from '../../../reports/typesetting/free-memory.ts';

/** From so many cars on, what reading them and working them out leaves behind is more than what is held of them. */
export const manyCars = 20_000;

/** When nobody has asked for anything for so long, in ms, a service gives back what it no longer needs. */
export const restsAfter = 10_000;
/** Where it is less, in bytes, it is left. */
const worthIt = 8e6;

/** Once there were many cars. */
let isLarge = false;
let isHeeded = false;
let rest: NodeJS.Timeout | null = null;
let heapAtRest = 0;

/** V8 reads the switch whenever it sets its next bound; nothing is its own way. */
const letGrow = (percent: number): void => setFlagsFromString(`--heap-growing-percent=${percent}`);

/**
 * To be called where so many cars are read, or before they are worked out. V8 lets its heap grow to a multiple of what
 * is held before it looks for what can go, and of what hung on that outside of the heap much never comes back to the
 * system. Where there are many cars it looks when the heap has grown by a third, until `easeHeap`: working them out
 * takes a tenth longer. Lists keep V8's own way, since they would take twice as long where it looks while they are made.
 */
export const heedHeap = (cars: number): void => {
  if (cars < manyCars || isHeeded) return;
  isLarge = true;
  isHeeded = true;
  letGrow(30);
};

/** To be called when figures are worked out. */
export const easeHeap = (): void => {
  if (!isHeeded) return;
  isHeeded = false;
  letGrow(0);
};

/** Lets go of what nobody refers to, and gives back the pages that this frees, which V8 by itself keeps: 0.2 s with 100,000 cars. */
const giveBack = (): void => {
  rest = null;
  if (getHeapStatistics().total_heap_size < heapAtRest + worthIt) return;
  collect({ type: 'major', execution: 'sync', flavor: 'last-resort' });
  heapAtRest = getHeapStatistics().total_heap_size;
};

/** To be called for every call of a procedure, before and after: where there are many cars, a rest begins when nobody asks any more. */
export const atWork = (): void => {
  if (!isLarge) return;
  if (rest) clearTimeout(rest);
  rest = setTimeout(giveBack, restsAfter).unref();
};
