import type { OwnLine, PlanWishes, ThreePoint, WorkLine, WorkStep } from '../types.ts';
import type { CarState } from './car-state.ts';
import { reasonFor } from './step-answers.ts';

/** Written out: a plan has some thirty lines, and lists have thousands of plans. */
const lineOf = (step: WorkStep, why: WorkLine['why']): WorkLine => ({
  id: step.id,
  name: step.name,
  part: step.part,
  after: step.after,
  hands: step.hands,
  waiting: step.waiting,
  materials: step.materials,
  hazards: step.hazards,
  spoilChance: step.spoilChance,
  spoiledShare: step.spoiledShare,
  brings: step.brings,
  why,
});

const materialsOf = (name: string, cost: ThreePoint): WorkLine['materials'] =>
  cost.high === 0 ? [] : [{ name: `${name}: materials`, kind: 'material', cost }];

/** A line as its owner changed it; it still stands for the fact that called for it. */
const changedLine = (line: WorkLine, wishes: PlanWishes): WorkLine => {
  const change = wishes.changed?.[line.id];
  if (!change) return line;
  const name = change.name ?? line.name;
  return {
    ...line,
    name,
    hands: change.hands ?? line.hands,
    waiting: change.waiting ?? line.waiting,
    materials: change.cost ? materialsOf(name, change.cost) : line.materials,
    hazards: change.hazards ? [...new Set([...line.hazards, ...change.hazards])] : line.hazards,
  };
};

const ownLine = ({ id, name, part, hands, waiting, cost, hazards, behind }: OwnLine): WorkLine => ({
  id,
  name,
  part,
  after: behind === null ? [] : [behind],
  hands,
  waiting,
  materials: materialsOf(name, cost),
  hazards,
  spoilChance: 0,
  spoiledShare: 1,
  brings: [],
  why: { kind: 'owner' },
});

/**
 * The lines of a plan in their order: those of the steps, as their owner changed them, and the owner's own
 * behind the lines that they name.
 */
export const planLines = (steps: readonly WorkStep[], car: CarState, wishes: PlanWishes): WorkLine[] => {
  const asked = new Set(wishes.also ?? []);
  const lines = steps.map(step =>
    changedLine(lineOf(step, asked.has(step.id) ? { kind: 'owner' } : reasonFor(step, car)), wishes),
  );
  for (const own of wishes.added ?? []) {
    const at = lines.findIndex(({ id }) => id === own.behind);
    // Behind a line and the owner's own that stand behind it already.
    let place = at < 0 ? lines.length : at + 1;
    while (at >= 0 && lines[place]?.after[0] === own.behind && lines[place]?.why.kind === 'owner') place += 1;
    lines.splice(place, 0, ownLine(own));
  }
  return lines;
};
