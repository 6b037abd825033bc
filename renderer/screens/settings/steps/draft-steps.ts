import type { WorkStep } from '../../../../valuation/types.ts';
import { gradeLabel } from '../../../../valuation/words.ts';
import { beforeItself } from '../../../../valuation/work/before-itself.ts';

/** The key of a new step, made of its name: letters alone, apart from those that are taken. */
export const keyFor = (name: string, taken: ReadonlySet<string>): string => {
  const plain =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 60)
      .replace(/-+$/, '') || 'step';
  let key = plain;
  while (taken.has(key)) key = `${key}-again`;
  return key;
};

/** A step that is called for by nothing but its kind, to be filled in. */
export const newStep = (name: string, steps: readonly WorkStep[]): WorkStep => ({
  id: keyFor(name, new Set(steps.map(({ id }) => id))),
  name,
  kinds: ['restore', 'customise'],
  part: null,
  call: {},
  after: ['take-apart'].filter(id => steps.some(step => step.id === id)),
  hands: { low: 5, likely: 10, high: 20 },
  waiting: { low: 0, likely: 0, high: 0 },
  materials: [],
  hazards: [],
  spoilChance: 0,
  spoiledShare: 1,
  grade: null,
  leaves: null,
  takes: [],
  buys: null,
  insteadOf: [],
  brings: [],
});

/** How many steps were changed, added or removed. */
export const countStepChanges = (before: readonly WorkStep[], now: readonly WorkStep[]): number => {
  const was = new Map(before.map(step => [step.id, JSON.stringify(step)]));
  const is = new Set(now.map(({ id }) => id));
  return (
    now.filter(step => was.get(step.id) !== JSON.stringify(step)).length +
    before.filter(({ id }) => !is.has(id)).length
  );
};

/** Without a step, and without its place before or instead of others. */
export const withoutStep = (steps: readonly WorkStep[], id: string): WorkStep[] =>
  steps
    .filter(step => step.id !== id)
    .map(step =>
      step.after.includes(id) || step.insteadOf.includes(id)
        ? {
            ...step,
            after: step.after.filter(one => one !== id),
            insteadOf: step.insteadOf.filter(one => one !== id),
          }
        : step,
    );

/** What is wrong with the fields of one step, to be said beside each; only what is wrong is in it. */
export const fieldProblems = (
  step: WorkStep,
  steps: readonly WorkStep[],
): Partial<Record<'name' | 'kinds' | 'after' | 'from', string>> => {
  const { id, name, kinds, call } = step;
  // The first is asked first, so that of a ring each step is told of itself.
  const ring = beforeItself([step, ...steps.filter(one => one.id !== id)]);
  return {
    ...(name.trim() === '' && { name: 'A step needs a name.' }),
    ...(kinds.length === 0 && { kinds: 'Choose at least one kind of work.' }),
    ...(ring?.id === id && { after: 'The step would come before itself.' }),
    ...(isNever(call) && { from: `No part is below ${gradeLabel(call.below!)} and at least this.` }),
  };
};

/** True where no part can have the grade that is asked for. */
const isNever = ({ below, from }: WorkStep['call']): boolean =>
  below !== undefined && from !== undefined && from >= below;

/** Why a step cannot be saved yet, or null. */
export const stepProblem = (steps: readonly WorkStep[]): string | null => {
  const nameless = steps.find(({ name }) => name.trim() === '');
  if (nameless) return 'A step needs a name. Name it or remove it.';
  const kindless = steps.find(({ kinds }) => kinds.length === 0);
  if (kindless) return `“${kindless.name}” belongs to no kind of work. Choose one or remove the step.`;
  const unnamed = steps.find(({ materials }) => materials.some(({ name }) => name.trim() === ''));
  if (unnamed) return `A material of “${unnamed.name}” needs a name.`;
  const ring = beforeItself(steps);
  if (ring) return `“${ring.name}” would come before itself. Change what it comes after.`;
  const never = steps.find(({ call }) => isNever(call));
  return never
    ? `Nothing calls for “${never.name}”: no part is below ${gradeLabel(never.call.below!)} and at least ${gradeLabel(never.call.from!)}.`
    : null;
};
