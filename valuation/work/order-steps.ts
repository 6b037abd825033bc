import type { WorkStep } from '../types.ts';
import { type WorkKind, workKinds } from '../words.ts';

const held = new WeakMap<readonly WorkStep[], ReadonlyMap<WorkKind, readonly WorkStep[]>>();

const sorted = (steps: readonly WorkStep[]): readonly WorkStep[] => {
  const place = new Map(steps.map(({ id }, i) => [id, i]));
  const done = new Set<string>();
  const order: WorkStep[] = [];
  const open = new Set<string>();
  const visit = (step: WorkStep) => {
    if (done.has(step.id)) return;
    if (open.has(step.id)) throw new RangeError(`step "${step.id}" comes before itself`);
    open.add(step.id);
    for (const id of step.after) {
      const at = place.get(id);
      if (at !== undefined) visit(steps[at]!);
    }
    open.delete(step.id);
    done.add(step.id);
    order.push(step);
  };
  for (const step of steps) visit(step);
  return order;
};

/**
 * The steps of a kind of work in an order in which each stands behind those that come before it, otherwise as
 * they are given. Remembered for the list. Throws RangeError where steps come before themselves.
 */
export const stepsInOrder = (steps: readonly WorkStep[], kind: WorkKind): readonly WorkStep[] => {
  let found = held.get(steps);
  if (!found) {
    const order = sorted(steps);
    found = new Map(workKinds.map(one => [one, order.filter(({ kinds }) => kinds.includes(one))]));
    held.set(steps, found);
  }
  return found.get(kind) ?? [];
};
