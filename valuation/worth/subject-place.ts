import type { FittedMarket } from '../market/fitted-market.ts';
import type { Subject } from '../types.ts';
import { candidatesLadder, castingLadder, type Ladder, variationLadder } from './worth-ladder.ts';

/**
 * Where a car stands in the market: its casting, and the variations that it can be, all as
 * places in the index.
 */
export interface SubjectPlace {
  casting: number;
  /** The variation where it is known, else −1. */
  variation: number;
  /** The candidates where there are several; empty where only the casting is known. */
  candidates: number[];
}

/** Finds a car in the market; null when nothing is known of what it is, or none of it is in the reference. */
export const subjectPlace = (
  fitted: FittedMarket,
  subject: Pick<Subject, 'castingId' | 'variationId' | 'candidates'>,
): SubjectPlace | null => {
  const { index } = fitted.inside;
  const known = subject.variationId === null ? undefined : index.variationPlace.get(subject.variationId);
  if (known !== undefined)
    return { casting: index.variationCasting[known]!, variation: known, candidates: [] };
  const candidates = [
    ...new Set(
      subject.candidates.map(id => index.variationPlace.get(id)).filter(place => place !== undefined),
    ),
  ].sort((a, b) => a - b);
  if (candidates.length === 1)
    return {
      casting: index.variationCasting[candidates[0]!]!,
      variation: candidates[0]!,
      candidates: [],
    };
  const casting = subject.castingId === null ? undefined : index.castingPlace.get(subject.castingId);
  if (candidates.length > 1)
    return { casting: casting ?? index.variationCasting[candidates[0]!]!, variation: -1, candidates };
  return casting === undefined ? null : { casting, variation: -1, candidates: [] };
};

/**
 * The ladder that a subject is valued by: that of the level, from the narrowest known to the whole market:
 * its variation, else the variations it may be, else its casting.
 */
export const ladderOf = (fitted: FittedMarket, place: SubjectPlace): Ladder => {
  if (place.variation >= 0) return variationLadder(fitted, place.variation);
  if (place.candidates.length > 0) return candidatesLadder(fitted, place.candidates);
  return castingLadder(fitted, place.casting);
};
