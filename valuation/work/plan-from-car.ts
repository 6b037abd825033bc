import { checkFinite } from '../statistics/check-input.ts';
import type {
  AssumptionSet,
  PartState,
  PlannedDeparture,
  PlannedPart,
  PlanWishes,
  RestorationPlan,
  ThreePoint,
  WorkPlan,
  WorkStep,
} from '../types.ts';
import {
  type Closure,
  deviationOfOpening,
  deviationOfOtherPart,
  deviationOfReproduction,
  type Grade,
  hazards,
  type PartName,
  type WorkKind,
} from '../words.ts';
import { type CarState, carState, type FoundPart, type PlanGround } from './car-state.ts';
import { gradesAfter, weakestPart } from './grades-after.ts';
import { stepsInOrder } from './order-steps.ts';
import { type FittedPart, partToFit } from './part-to-fit.ts';
import { planLines } from './plan-lines.ts';
import { calledFor, gradeAfterStep, replacedParts } from './step-answers.ts';
import { startingSteps } from './steps/index.ts';

/** The best that cleaning and straightening alone can make of a car. Common practice, no source. */
const bestByCare: Grade = 8;
/** Minutes to hours. */
const perHour = 60;
const nothing: ThreePoint = { low: 0, likely: 0, high: 0 };
const add = (a: ThreePoint, b: ThreePoint): ThreePoint => ({
  low: a.low + b.low,
  likely: a.likely + b.likely,
  high: a.high + b.high,
});
const inHours = ({ low, likely, high }: ThreePoint): ThreePoint => ({
  low: low / perHour,
  likely: likely / perHour,
  high: high / perHour,
});

/** The steps of the assumptions, or the project's starting steps where none are given. */
export const stepsOf = (assumptions: AssumptionSet): readonly WorkStep[] =>
  assumptions.work.steps ?? startingSteps('USD');

/**
 * The grade aimed at: the owner's wish, what care can reach, or what the standard plan of the kind aims at.
 */
const aimOf = (kind: WorkKind, car: CarState, wishes: PlanWishes, assumptions: AssumptionSet): Grade => {
  const found = car.subject.grade ?? assumptions.unknownGrade;
  if (kind === 'donor') return found;
  if (kind === 'conserve')
    return Math.max(found, Math.min(bestByCare, found + assumptions.decision.conserveGain));
  const aim = wishes.aim ?? assumptions.standardPlan[kind].targetGrade;
  checkFinite(aim, 'grade that a plan aims at');
  return aim;
};

/** How the parts stand after the work; those that were not graded and are left keep no grade. */
const partsAfterWork = (
  car: CarState,
  steps: readonly WorkStep[],
  fitted: ReadonlyMap<PartName, FittedPart>,
  paints: boolean,
): PartState[] => {
  const after: PartState[] = [];
  for (const found of car.parts.values()) {
    const { part, originality } = found;
    if (paints && (part === 'body finish' || part === 'post and rivet closure')) continue;
    const other = fitted.get(part);
    if (other) after.push({ part, grade: other.grade, originality: other.originality });
    // Labels go with the finish that they are on.
    else if (originality === 'missing' || (paints && part === 'labels'))
      after.push({ part, grade: null, originality: 'missing' });
    else if (car.taken.has(part)) after.push({ part, grade: null, originality: 'missing' });
    // The roof is painted with the body, or after it where it is finished apart: its old finish holds nothing down.
    else if (paints && part === 'roof') after.push({ part, grade: null, originality });
    else
      after.push({
        part,
        grade: workedGrade(found, steps),
        originality: steps.findLast(step => step.part === part && step.leaves)?.leaves ?? originality,
      });
  }
  return after;
};

const workedGrade = ({ part, grade }: FoundPart, steps: readonly WorkStep[]): Grade | null =>
  grade === null
    ? null
    : steps.reduce((reached, step) => (step.part === part ? gradeAfterStep(step, reached) : reached), grade);

/**
 * The steps of a plan: those that the car calls for and those that its owner asks for, without those whose place
 * another one takes. Where a step takes a part with it, another part is needed: `replaced` and `car.taken` say so.
 */
const stepsToDo = (
  ofKind: readonly WorkStep[],
  car: CarState,
  replaced: Set<PartName>,
  wishes: PlanWishes,
): WorkStep[] => {
  const without = new Set(wishes.without ?? []);
  const also = new Set(wishes.also ?? []);
  for (const { id, part, call } of ofKind)
    if (also.has(id) && call.replace && part !== null) replaced.add(part);
  const choose = () => {
    const chosen = ofKind.filter(
      step => !without.has(step.id) && (also.has(step.id) || calledFor(step, car, replaced)),
    );
    const given = new Set(chosen.flatMap(({ insteadOf }) => insteadOf));
    return given.size === 0 ? chosen : chosen.filter(({ id }) => !given.has(id));
  };
  const steps = choose();
  const taking = steps.filter(({ takes }) => takes.length > 0);
  if (taking.length === 0) return steps;
  for (const { takes, name } of taking)
    for (const part of takes)
      if (car.parts.has(part)) {
        car.taken.set(part, name);
        if (!wishes.leaveOff?.includes(part)) replaced.add(part);
      }
  return choose();
};

/** True where a step takes parts with it and originals, or none, take their place: no part is another then. */
const fitsOriginals = ({ takes }: WorkStep, partsAfter: readonly PartState[]): boolean => {
  const inTheirPlace = partsAfter.filter(({ part }) => takes.includes(part));
  return (
    inTheirPlace.length > 0 &&
    inTheirPlace.every(({ originality }) => originality === 'original' || originality === 'missing')
  );
};

/**
 * Every departure once, with what brings it: the closure, a step, a reproduction on the car, or
 * the owner's wish.
 */
const departuresOf = (
  kind: 'restore' | 'customise',
  car: CarState,
  steps: readonly WorkStep[],
  partsAfter: readonly PartState[],
  closure: Closure,
  wishes: PlanWishes,
  assumptions: AssumptionSet,
): PlannedDeparture[] => {
  const departures: PlannedDeparture[] = [];
  const depart = (one: PlannedDeparture) => {
    if (!departures.some(({ kind: known }) => known === one.kind)) departures.push(one);
  };
  const closing = steps.findLast(step => step.call.closures?.includes(closure));
  if (closure !== 'as made')
    depart({
      kind: deviationOfOpening,
      from: closing ? { step: closing.id } : { part: 'post and rivet closure' },
    });
  for (const step of steps)
    for (const brought of step.brings)
      if (brought !== deviationOfOtherPart || !fitsOriginals(step, partsAfter))
        depart({ kind: brought, from: { step: step.id } });
  // A roof that is finished apart and is not masked is painted with the body.
  if (
    car.roofApart &&
    !steps.some(step => step.part === 'roof') &&
    !wishes.added?.some(({ part }) => part === 'roof')
  )
    depart({ kind: 'textured roof', from: { part: 'roof' } });
  for (const { part, originality } of partsAfter) {
    const brought = originality === 'reproduction' ? deviationOfReproduction[part] : undefined;
    if (brought) depart({ kind: brought, from: { part } });
  }
  for (const one of [...assumptions.standardPlan[kind].deviations, ...(wishes.departures ?? [])])
    if (one !== deviationOfOpening) depart({ kind: one, from: { part: 'body finish' } });
  return departures;
};

/**
 * What is to be done to a car, made from the car: the steps that its part grades, originality, finish state
 * and factory specification call for, in their order, each with the fact that called for it; the parts to
 * fit, from the shelf before they are bought; the departures from the factory specification that steps,
 * parts and the closure bring; hours and cost as sums of the lines; the grades that it can end in.
 * Deterministic, and a better grade of a part never asks for more starting steps. Money in minor units of
 * the reporting currency, times in hours. Throws RangeError on steps that come before themselves and on a
 * grade that is none.
 */
export const planFromCar = (
  subject: PlanGround,
  assumptions: AssumptionSet,
  kind: WorkKind = 'restore',
  wishes: PlanWishes = {},
): WorkPlan => {
  const paints = kind === 'restore' || kind === 'customise';
  const closure: Closure = wishes.closure ?? 'screw';
  const car = carState(subject, closure, assumptions.unknownGrade);
  const ofKind = stepsInOrder(stepsOf(assumptions), kind);
  const replaced = replacedParts(ofKind, car);
  for (const part of wishes.leaveOff ?? []) replaced.delete(part);
  const steps = stepsToDo(ofKind, car, replaced, wishes);
  const lines = planLines(steps, car, wishes);

  const fitted = new Map<PartName, FittedPart>();
  for (const step of steps)
    if (step.call.replace && step.part !== null)
      fitted.set(step.part, partToFit(step, car, assumptions, wishes));
  const leftOff: PlannedPart[] = (wishes.leaveOff ?? []).flatMap(part => {
    const found = car.parts.get(part);
    return found
      ? [{ part, from: 'leave off', name: '', originality: 'missing', cost: nothing, why: { kind: 'owner' } }]
      : [];
  });

  let hands = nothing;
  let waiting = nothing;
  let cost = nothing;
  let kept = 1;
  let spoiled = 0;
  let chances = 0;
  for (const line of lines) {
    hands = add(hands, line.hands);
    waiting = add(waiting, line.waiting);
    for (const material of line.materials) cost = add(cost, material.cost);
    kept *= 1 - line.spoilChance;
    chances += line.spoilChance;
    spoiled += line.spoilChance * line.spoiledShare;
  }
  const parts = [...fitted.values()].map(({ grade: _, ...part }) => part);
  for (const part of parts) cost = add(cost, part.cost);

  const aim = aimOf(kind, car, wishes, assumptions);
  const partsAfter = partsAfterWork(car, steps, fitted, paints);
  for (const part of leftOff.map(one => one.part))
    if (!partsAfter.some(one => one.part === part && one.originality === 'missing')) {
      const at = partsAfter.findIndex(one => one.part === part);
      if (at >= 0) partsAfter[at] = { part, grade: null, originality: 'missing' };
    }
  const departures = paints ? departuresOf(kind, car, steps, partsAfter, closure, wishes, assumptions) : [];
  const called = new Set(lines.flatMap(line => line.hazards));
  return {
    kind,
    lines,
    parts: [...parts, ...leftOff],
    departures,
    closure: paints ? closure : null,
    hours: inHours(hands),
    waiting: inHours(waiting),
    cost,
    aim,
    heldBy: paints ? weakestPart(aim, partsAfter).heldBy : null,
    grades: paints ? gradesAfter(aim, partsAfter, assumptions.work.workmanship) : [{ grade: aim, share: 1 }],
    partsAfter,
    spoilChance: 1 - kept,
    spoiledShare: chances > 0 ? spoiled / chances : 1,
    hazards: hazards.filter(hazard => called.has(hazard)),
  };
};

/**
 * A plan of painting as the engine weighs it: its materials and parts as cost lines, its hours,
 * departures and grades.
 */
export const restorationPlanOf = (plan: WorkPlan): RestorationPlan => {
  if (plan.kind !== 'restore' && plan.kind !== 'customise')
    throw new RangeError(`a plan to ${plan.kind} is none of painting`);
  return {
    kind: plan.kind,
    targetGrade: plan.aim,
    grades: plan.grades,
    ...(plan.closure && { closure: plan.closure }),
    deviations: plan.departures.map(({ kind }) => kind),
    hours: plan.hours,
    lines: [
      ...plan.lines.flatMap(({ materials }) => materials),
      ...plan.parts
        .filter(({ from }) => from !== 'leave off')
        .map(({ part, from, name, cost, originality }) => ({
          name:
            from === 'shelf' ? name : `${originality === 'reproduction' ? 'Reproduction' : 'Other'} ${part}`,
          kind: 'part' as const,
          cost,
          ...(from === 'shelf' && { part: name, quantity: 1 }),
        })),
    ],
    spoilChance: plan.spoilChance,
    spoiledShare: plan.spoiledShare,
    partsAfter: plan.partsAfter,
  };
};
