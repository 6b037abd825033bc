import type { Guard } from '../../types.ts';
import { gradeLabel } from '../../words.ts';

/** What stands against painting, without what follows from it: "Its variation is scarce". No full stop. */
export const guardInShort = (guard: Guard): string => {
  if (guard.kind === 'keep-grade')
    return guard.finish === null
      ? 'Its original finish is not graded'
      : `Its original finish at ${gradeLabel(guard.finish)} is at or above the keep-grade ${gradeLabel(guard.keepGrade)}`;
  return guard.identified
    ? `Its variation is ${guard.rarities.join(' or ')}`
    : `It may be a ${guard.rarities.join(' or ')} variation`;
};

const whatFollows = (guard: Guard): string => {
  if (guard.kind === 'keep-grade')
    return guard.finish === null
      ? `it may be at or above the keep-grade ${gradeLabel(guard.keepGrade)}. Grade it before any paint.`
      : 'a factory finish can be removed only once.';
  return guard.identified
    ? 'what is left of the factory finish is worth saving.'
    : 'identify it before any paint.';
};

/** What stands against painting a car, and what follows; where the owner overruled it, with their reason. */
export const guardText = (guard: Guard): string =>
  `${guardInShort(guard)}: ${whatFollows(guard)}${guard.overruled ? ` Overruled: ${guard.reason}` : ''}`;
