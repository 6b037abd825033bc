import type { AssumptionSet, PartState } from '../types.ts';

/** What a reproduction of the packaging adds, against the packaging itself. Common practice, no source. */
const ofReproduction = 1 / 3;
/**
 * Share of the price added by packaging as made, where an older assumption set does not say. Common practice,
 * no source.
 */
const usualGain = 0.4;

/**
 * Log of what its packaging adds to a car's price: ln(1 + gain × (grade − 1) / 9), the grade being the
 * packaging's own, or the usual grade where it has not been graded; nothing where it is missing or not spoken
 * of.
 */
export const packagingLog = (
  parts: readonly PartState[],
  { packagingGain = usualGain, unknownGrade }: Pick<AssumptionSet, 'packagingGain' | 'unknownGrade'>,
): number => {
  const found = parts.find(({ part }) => part === 'packaging');
  if (!found || found.originality === 'missing') return 0;
  const share = found.originality === 'reproduction' ? ofReproduction : 1;
  return Math.log(1 + packagingGain * share * (((found.grade ?? unknownGrade) - 1) / 9));
};

/** The parts after work with the packaging as it is, which no work on the car changes. */
export const withPackaging = (after: readonly PartState[], found: readonly PartState[]): PartState[] => {
  const packaging = found.find(({ part }) => part === 'packaging');
  return packaging && !after.some(({ part }) => part === 'packaging') ? [...after, packaging] : [...after];
};
