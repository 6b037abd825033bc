import { type FinishState, finishAfter, paintsCar, type WorkKind } from '../words.ts';

/** Steps that put another finish on the body, and the one that takes its own off. */
const painting: ReadonlySet<string> = new Set(['coat-light', 'coat-medium', 'coat-wet', 'plate-body']);
const stripping = 'strip';

/**
 * The finish state that a car is left in when work on it ends before it is finished, by the ids of the steps
 * that are done: what it had before, unless its finish was taken off, or another one put on, since.
 */
export const finishLeft = (kind: WorkKind, done: readonly string[], before: FinishState): FinishState =>
  paintsCar(kind) && done.some(step => painting.has(step))
    ? finishAfter(kind, before)
    : done.includes(stripping)
      ? 'stripped'
      : before;
