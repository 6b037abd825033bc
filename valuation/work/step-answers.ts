import type { WorkReason, WorkStep } from '../types.ts';
import type { Grade, PartName } from '../words.ts';
import type { CarState, FoundPart } from './car-state.ts';

/**
 * Labels that are on the finish go with it; everything else is replaced where it is missing, or graded worse
 * than the step says: never by a guess.
 */
const isReplaced = (step: WorkStep, found: FoundPart): boolean =>
  found.part === 'labels' ||
  found.originality === 'missing' ||
  (step.call.below !== undefined && found.graded && found.asked < step.call.below);

/** The parts of a car that the steps of a kind of work replace. */
export const replacedParts = (steps: readonly WorkStep[], car: CarState): Set<PartName> => {
  const replaced = new Set<PartName>();
  for (const step of steps) {
    if (!step.call.replace || step.part === null) continue;
    const found = car.parts.get(step.part);
    if (found && isReplaced(step, found)) replaced.add(step.part);
  }
  return replaced;
};

const specified = (step: WorkStep, car: CarState): boolean => {
  switch (step.call.specified) {
    case undefined:
      return true;
    case 'base painted':
      return car.basePainted;
    case 'roof apart':
      return car.roofApart;
    case 'tail apart':
      return car.tailApart;
  }
};

/**
 * True where a car calls for a step. `replaced`: parts that another one takes the place of, which
 * are not worked on.
 */
export const calledFor = (step: WorkStep, car: CarState, replaced: ReadonlySet<PartName>): boolean => {
  const { call, part } = step;
  if (call.asked) return false;
  if (call.bodyFinish && !call.bodyFinish.includes(car.finish)) return false;
  if (call.finishStates && !call.finishStates.includes(car.subject.finishState)) return false;
  if (call.closures && !call.closures.includes(car.closure)) return false;
  if (call.captiveBearings !== undefined && call.captiveBearings !== car.captiveBearings) return false;
  if (!specified(step, car)) return false;
  if (part === null) return true;
  const found = car.parts.get(part);
  if (!found) return false;
  if (call.replace) return replaced.has(part);
  const judged = call.below !== undefined || call.from !== undefined;
  // What is replaced, or is not there, is neither cleaned nor mended.
  if (judged && (replaced.has(part) || found.originality === 'missing')) return false;
  if (call.graded && !found.graded) return false;
  if (call.below !== undefined && found.asked >= call.below) return false;
  if (call.from !== undefined && found.asked < call.from) return false;
  return !call.originality || call.originality.includes(found.originality);
};

/** The grade of a part after a step. */
export const gradeAfterStep = (step: WorkStep, grade: Grade): Grade =>
  step.grade ? Math.max(grade, Math.min(step.grade.upTo, grade + step.grade.gain)) : grade;

/** The fact that called for a step. */
export const reasonFor = (step: WorkStep, car: CarState): WorkReason => {
  const { call, part } = step;
  const found = part === null ? undefined : car.parts.get(part);
  const { spec } = car.subject;
  if (part !== null && found && call.replace) {
    if (found.originality === 'missing') return { kind: 'part-originality', part, originality: 'missing' };
    if (part === 'labels') return { kind: 'lost-in-stripping', part };
    const by = car.taken.get(part);
    if (by !== undefined) return { kind: 'lost-in-step', part, step: by };
    return { kind: 'part-grade', part, grade: found.asked, assumed: !found.graded, after: null };
  }
  if (part !== null && found && (call.below !== undefined || call.from !== undefined)) {
    const after = step.grade ? gradeAfterStep(step, found.asked) : null;
    return { kind: 'part-grade', part, grade: found.asked, assumed: !found.graded, after };
  }
  if (call.specified && spec)
    return call.specified === 'base painted'
      ? { kind: 'specification', part: 'base', words: spec.basePaint }
      : call.specified === 'roof apart'
        ? { kind: 'specification', part: 'roof', words: spec.roof }
        : { kind: 'specification', part: 'body finish', words: spec.rearEnd };
  if (call.closures) return { kind: 'closure', closure: car.closure };
  if (call.captiveBearings !== undefined) return { kind: 'bearings', captive: car.captiveBearings };
  if (call.bodyFinish) return { kind: 'body-finish', finish: car.finish, words: spec?.bodyFinish ?? '' };
  if (call.finishStates) return { kind: 'finish-state', finishState: car.subject.finishState };
  if (part !== null && found && call.originality)
    return { kind: 'part-originality', part, originality: found.originality };
  return { kind: 'always' };
};
