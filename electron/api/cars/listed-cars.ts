import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { type LotRecord, listLots } from '../../../db/records/lots/lots.ts';
import type { Minor } from '../../../valuation/types.ts';
import { advisesWork, type ListedStatus, type Recommendation } from '../../../valuation/words.ts';
import { allBriefCars } from '../figures/brief-cars.ts';
import { type Figures, figuresById, figuresForList, noFigures } from '../figures/figures.ts';
import { isOwned, isSeenOnly, seenLotsOf } from '../figures/owned.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { WorkingOut } from '../views.ts';
import { type CarText, carTexts } from './car-texts.ts';

/** What a list of all cars is filtered, sorted and summed by, beside the cars in brief. */
export interface ListedCars {
  /** Up to when all changes have been heard of. */
  at: number;
  cars: readonly BriefCar[];
  index: ReferenceIndex;
  lots: ReadonlyMap<number, LotRecord>;
  /** The lots that were only seen. */
  seen: ReadonlySet<number>;
  /** Those of no car where none were asked for. */
  figures: Figures;
  /** Where they are those of before, how far the new ones are. */
  workingOut: WorkingOut | null;
  /** Of a car's figures, the middle of its value as found, what is recommended, and what that is expected to gain. */
  midOf(id: number): Minor | null;
  recommendationOf(id: number): Recommendation | undefined;
  expectedGainOf(id: number): Minor | null;
  /** All that is written of a car; nothing where no words were asked for. */
  textOf(id: number): CarText | undefined;
}

/**
 * Reads what a list needs; figures and texts only where they are asked for, as both take long to begin with. What is shown may
 * be by the figures of before.
 */
export const listedCars = async (
  session: Session,
  needs: { figures: boolean | 'may be of before'; texts: boolean },
): Promise<ListedCars> => {
  const at = session.cache.now();
  const cars = [...(await allBriefCars(session)).values()];
  const ids = cars.map(({ id }) => id);
  const texts = await carTexts(session, needs.texts ? ids : null);
  const { figures, workingOut } =
    needs.figures === 'may be of before'
      ? await figuresForList(session, ids)
      : { figures: needs.figures ? await figuresById(session, ids) : noFigures, workingOut: null };
  const mid = figures.column(({ worths }) => worths.asFound?.mid ?? null);
  const expectedGain = figures.column(one => one.expectedGain);
  return {
    at,
    cars,
    index: await referenceIndex(session),
    seen: await seenLotsOf(session),
    lots: new Map((await listLots(openOf(session).read.db)).map(lot => [lot.id, lot])),
    textOf: id => texts.get(id),
    figures,
    workingOut,
    midOf: id => mid(id) ?? null,
    recommendationOf: figures.column(({ recommendation }) => recommendation),
    expectedGainOf: id => expectedGain(id) ?? null,
  };
};

export const seriesOf = ({ index }: ListedCars, { castingId }: BriefCar): string | null =>
  (castingId === null ? undefined : index.castings.get(castingId)?.series) ?? null;

export const rarityOf = ({ index }: ListedCars, { variationId }: BriefCar) =>
  (variationId === null ? undefined : index.variations.get(variationId)?.rarity) ?? null;

/** By which status a car is listed. */
export const statusOf = ({ seen }: ListedCars, car: BriefCar): ListedStatus =>
  isSeenOnly(seen, car) ? 'seen' : car.status;

/** What is recommended for a car of the owner's; null for others. */
export const adviceOf = ({ recommendationOf, seen }: ListedCars, car: BriefCar) =>
  isOwned(seen, car) ? (recommendationOf(car.id) ?? null) : null;

/** What is gained by following a recommendation of some work; null where none is recommended. */
export const gainOf = (list: ListedCars, car: BriefCar): number | null =>
  advisesWork(adviceOf(list, car)) ? list.expectedGainOf(car.id) : null;
