import type { FinishKind, PartState, Subject } from '../types.ts';
import {
  type Closure,
  type Grade,
  type Originality,
  originalities,
  type PartName,
  partsOfEveryCar,
  singleWheels,
  usualParts,
} from '../words.ts';
import { finishedApart, finishKind } from './finish-kind.ts';

/** A part as work finds it: its grade, or the car's where it has not been graded itself. */
export interface FoundPart extends PartState {
  /** The grade that steps answer. */
  asked: Grade;
  graded: boolean;
}

/** A car as the steps ask about it. */
export interface CarState {
  subject: PlanGround;
  parts: ReadonlyMap<PartName, FoundPart>;
  finish: FinishKind;
  closure: Closure;
  /** Parts that go in a step that is done, each with the name of the step. */
  taken: Map<PartName, string>;
  captiveBearings: boolean;
  basePainted: boolean;
  roofApart: boolean;
  tailApart: boolean;
}

/** Steps are about all four wheels: the worst of those that were looked at one by one stands for the set. */
const asSet = (parts: Map<PartName, FoundPart>): void => {
  for (const name of singleWheels) {
    const one = parts.get(name);
    parts.delete(name);
    if (!one) continue;
    const set = parts.get('wheels');
    const worse = (a: Originality, b: Originality) =>
      originalities.indexOf(a) > originalities.indexOf(b) ? a : b;
    const grades = [set, one].flatMap(found => (found?.graded ? [found.asked] : []));
    const worst = grades.length > 0 ? Math.min(...grades) : null;
    parts.set('wheels', {
      part: 'wheels',
      originality: set ? worse(set.originality, one.originality) : one.originality,
      grade: worst,
      asked: worst ?? one.asked,
      graded: worst !== null,
    });
  }
};

/** All of a car that a plan is made from: cars alike in it have the same plan. */
export type PlanGround = Pick<Subject, 'grade' | 'finishState' | 'parts' | 'spec' | 'shelf'>;

/**
 * Gathers what steps ask about a car. `unknownGrade` stands in where neither a part nor the car is graded.
 */
export const carState = (subject: PlanGround, closure: Closure, unknownGrade: Grade): CarState => {
  const { spec } = subject;
  const overall = subject.grade ?? unknownGrade;
  const parts = new Map<PartName, FoundPart>();
  // A casting may have had labels and an accessory in other variations: those count where the car or its
  // variation says so.
  const own = spec?.parts?.filter(part => part !== 'labels' && part !== 'accessory') ?? [];
  const names = own.length > 0 ? own : usualParts;
  for (const part of new Set<PartName>([...names, ...partsOfEveryCar]))
    parts.set(part, { part, grade: null, originality: 'original', asked: overall, graded: false });
  if (spec && finishedApart(spec.accessory))
    parts.set('accessory', {
      part: 'accessory',
      grade: null,
      originality: 'original',
      asked: overall,
      graded: false,
    });
  for (const { part, grade, originality } of subject.parts)
    parts.set(part, { part, grade, originality, asked: grade ?? overall, graded: grade !== null });
  asSet(parts);
  return {
    subject,
    parts,
    finish: finishKind(spec?.bodyFinish ?? ''),
    closure,
    taken: new Map(),
    captiveBearings: spec?.captiveBearings ?? false,
    basePainted: spec !== undefined && spec.basePaint !== '' && spec.basePaint !== 'none',
    roofApart: spec !== undefined && finishedApart(spec.roof),
    tailApart: spec !== undefined && finishedApart(spec.rearEnd),
  };
};
