import type { AssumptionSet, GradeShare, PartState } from '../types.ts';
import { type Grade, grades, type PartName } from '../words.ts';

/** A car is graded at most this much above its weakest part, in grade points. Common practice, no source. */
const aboveWeakest = 1;

/**
 * The part that holds a car's grade down to less than `aim`, and the grade that it allows; no part
 * where none does.
 */
export const weakestPart = (
  aim: Grade,
  partsAfter: readonly PartState[],
): { cap: Grade; heldBy: PartName | null } => {
  let cap = aim;
  let heldBy: PartName | null = null;
  for (const { part, grade, originality } of partsAfter) {
    // A car is graded without what it came in.
    if (part === 'packaging') continue;
    if (grade === null || originality === 'missing' || grade + aboveWeakest >= cap) continue;
    cap = grade + aboveWeakest;
    heldBy = part;
  }
  return { cap, heldBy };
};

/**
 * The grades in which work can end: what was aimed at less what the workmanship falls short by, each with its
 * share, none above what the weakest part allows and none below C1. The best first; the shares add up to 1.
 */
export const gradesAfter = (
  aim: Grade,
  partsAfter: readonly PartState[],
  workmanship: AssumptionSet['work']['workmanship'],
): GradeShare[] => {
  const { cap } = weakestPart(aim, partsAfter);
  const shares = new Map<Grade, number>();
  let total = 0;
  for (const { short, share } of workmanship) {
    const reached = Math.max(grades[0]!, Math.min(cap, Math.round((aim - short) * 2) / 2));
    shares.set(reached, (shares.get(reached) ?? 0) + share);
    total += share;
  }
  if (total <= 0) return [{ grade: cap, share: 1 }];
  return [...shares]
    .filter(([, share]) => share > 0)
    .map(([grade, share]) => ({ grade, share: share / total }))
    .sort((a, b) => b.grade - a.grade);
};
