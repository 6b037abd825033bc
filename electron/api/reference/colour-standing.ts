import type { ColourStanding } from '../../../valuation/index.ts';
import type { PlanWishes } from '../../../valuation/types.ts';
import { deviationOfColour } from '../../../valuation/words.ts';
import { sameColour } from '../../../valuation/work/finished-departures.ts';
import type { ReferenceIndex } from './reference-index.ts';

/**
 * Whether a colour is the car's own, another that its casting was made in, or neither. Of a car whose
 * variation is not known, any colour of its casting may be its own.
 */
export const colourStanding = (
  index: ReferenceIndex,
  { castingId, variationId }: { castingId: number | null; variationId: number | null },
  colour: string,
): ColourStanding => {
  const ofCasting = castingId === null ? [] : (index.ofCasting.get(castingId) ?? []);
  const made = ofCasting.some(({ features }) => sameColour(features.colour, colour));
  if (variationId === null) return made ? 'own' : 'other';
  const own = index.variations.get(variationId)?.features.colour ?? '';
  return sameColour(own, colour) ? 'own' : made ? 'factory' : 'other';
};

/** Wishes with the departure that their colour is, or without it where the colour is the car's own. */
export const withColourDeparture = (
  wishes: PlanWishes,
  index: ReferenceIndex,
  car: { castingId: number | null; variationId: number | null },
): PlanWishes => {
  const { colour: wished = '', ...rest } = wishes;
  const colour = wished.trim();
  if (colour === '') return rest;
  const others = (wishes.departures ?? []).filter(kind => kind !== deviationOfColour);
  const departs = colourStanding(index, car, colour) !== 'own';
  return { ...rest, colour, departures: departs ? [...others, deviationOfColour] : others };
};
