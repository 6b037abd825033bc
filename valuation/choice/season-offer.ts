import type { Minor, Range } from '../types.ts';
import { type FinishState, paintsCar, type Recommendation, type WorkKind } from '../words.ts';

interface Offered {
  option: WorkKind;
  gain: number;
  /** A guard stands against it. */
  guarded: boolean;
}

/** The most cars that a season takes. */
export const mostInSeason = 10_000;

/** The offer that gains most, or loses least; of equals the first. */
export const mostGain = <O extends { gain: number }>(offers: readonly O[]): O | undefined =>
  offers.reduce<O | undefined>((best, one) => (best && best.gain >= one.gain ? best : one), undefined);

/**
 * What is done with a car that its owner takes into a season, where nothing is said of it: what is
 * recommended, else what its owner has planned for it, else what does best, by expected gain in minor units,
 * of all that no guard stands against; and of the rest where one stands against everything. Null where
 * nothing is offered.
 */
export const usualOffer = <O extends Offered>(
  offers: readonly O[],
  { recommendation, own }: { recommendation: Recommendation | null; own: WorkKind | null },
): O | null =>
  offers.find(({ option }) => option === recommendation) ??
  offers.find(({ option }) => option === own) ??
  mostGain(offers.filter(({ guarded }) => !guarded)) ??
  mostGain(offers) ??
  null;

/**
 * What a car is worth after it: by its plan of painting as restored, by conserving as its original finish;
 * null where that is not known. Minor units.
 */
export const valueAfter = (
  {
    worths,
    finishState,
    planned,
  }: {
    worths: { restored: Range | null; originalFinish: Range | null };
    finishState: FinishState;
    /** What its plan of painting, its own or the standard one, stands for. */
    planned: string | null;
  },
  option: WorkKind,
): Minor | null => {
  if (paintsCar(option)) return option === planned ? (worths.restored?.mid ?? null) : null;
  return option === 'conserve' && finishState === 'original' ? (worths.originalFinish?.mid ?? null) : null;
};

/** The limits of parts: the owner's, else what is on the shelf, of every part that anything asks for; null for none. */
export const partLimits = (
  own: Readonly<Record<string, number | null>>,
  asked: readonly string[],
  shelf: readonly { name: string; inStock: number }[],
): Map<string, number | null> => {
  const stock = new Map(shelf.map(({ name, inStock }) => [name, inStock]));
  return new Map(
    asked.map(name => [name, Object.hasOwn(own, name) ? (own[name] ?? null) : (stock.get(name) ?? 0)]),
  );
};
