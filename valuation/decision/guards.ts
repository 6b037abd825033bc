import type { FittedMarket } from '../market/fitted-market.ts';
import type { Guard, Subject } from '../types.ts';
import type { Grade, Rarity } from '../words.ts';
import { subjectPlace } from '../worth/subject-place.ts';

/** The rarities that a car can have: its variation's, or its candidates'. */
const raritiesOf = (fitted: FittedMarket, subject: Subject): Set<Rarity> => {
  const place = subjectPlace(fitted, subject);
  if (!place) return new Set();
  const places = place.variation >= 0 ? [place.variation] : place.candidates;
  const found = places.map(v => fitted.inside.index.variationRarity[v]!);
  return new Set(found.filter(rarity => rarity !== null));
};

/** The better of the grades of the car and of its original body finish; null where neither is graded. */
const finishGrade = ({ grade, parts }: Subject): Grade | null => {
  const body = parts.find(({ part, originality }) => part === 'body finish' && originality === 'original');
  if (grade === null) return body?.grade ?? null;
  return Math.max(grade, body?.grade ?? grade);
};

/**
 * What stands against painting a car. A factory finish can be removed only once, so both guards hold only
 * while some of it is there (original or touched up): an original finish at or above the keep-grade, by the
 * grade of the car or of its body finish, or one that has not been graded; and a rarity that the assumption
 * set keeps. A guard that the owner overrules with a reason stays in the list, marked.
 */
export const guardsAgainstPaint = (fitted: FittedMarket, subject: Subject): Guard[] => {
  const { keepGrade, keepRarities } = fitted.assumptions.decision;
  const guards: Guard[] = [];
  const overruling = (kind: Guard['kind']) => {
    const reason = subject.overruled?.find(({ guard }) => guard === kind)?.reason.trim() ?? '';
    return { overruled: reason !== '', reason };
  };
  if (subject.finishState === 'original') {
    const finish = finishGrade(subject);
    if (finish === null || finish >= keepGrade)
      guards.push({ kind: 'keep-grade', finish, keepGrade, ...overruling('keep-grade') });
  }
  const kept = [...raritiesOf(fitted, subject)].filter(rarity => keepRarities.includes(rarity));
  if (kept.length > 0 && (subject.finishState === 'original' || subject.finishState === 'touched up')) {
    const identified = subjectPlace(fitted, subject)!.variation >= 0;
    guards.push({ kind: 'rarity', rarities: kept, identified, ...overruling('rarity') });
  }
  return guards;
};

/** True where at least one guard has not been overruled by the owner. */
export const standsAgainst = (guards: readonly Guard[]): boolean =>
  guards.some(({ overruled }) => !overruled);
