import type { z } from 'zod';
import type { CarRecord } from '../../../db/records/cars/cars.ts';
import type { Matcher } from '../../../db/reference/match.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import type { carPatch } from '../inputs.ts';
import type { ReferenceIndex } from '../reference/reference-index.ts';
import { notFound, refused } from '../session/errors.ts';
import { typedIdentity } from './typed-identity.ts';

export type CarPatch = z.output<typeof carPatch>;
export type CarChanges = Partial<Omit<CarRecord, 'id'>>;

/**
 * What a patch changes of a car, its identity followed through; `candidates` is null where they
 * stay as they are.
 */
export interface ReadPatch {
  changes: CarChanges;
  candidates: number[] | null;
}

/**
 * Reads a patch of a car. A chosen variation brings its casting and release; a chosen casting lets go of
 * another casting's variation; typed text is matched against the reference. A field that is given by hand
 * settles the text that was not understood there. Throws where what is chosen does not exist.
 */
export const readPatch = (
  index: ReferenceIndex,
  match: Matcher,
  car: CarRecord,
  patch: CarPatch,
): ReadPatch => {
  const read = readIdentity(index, match, car, patch);
  const waits = car.unread.filter(({ field }) => !isSaidBy(patch, field));
  return waits.length === car.unread.length ? read : { ...read, changes: { ...read.changes, unread: waits } };
};

const variationColumns: readonly string[] = Object.values(featureColumns);

/**
 * True where a patch gives the field by hand: a text that waited for its meaning there is
 * settled for this car.
 */
const isSaidBy = (patch: CarPatch, field: string): boolean => {
  if (typeof patch.asWritten?.[field] === 'string' && patch.asWritten[field].trim() !== '') return true;
  switch (field) {
    case 'grade':
      return typeof patch.grade === 'number';
    case 'finish_state':
      return patch.finishState !== undefined;
    case 'location':
      return !!patch.location;
    case 'bought_on':
      return !!patch.boughtOn;
    case 'seller':
      return !!patch.seller;
    case 'own_estimate':
      return !!patch.ownWorth;
    case 'casting':
      return typeof patch.castingId === 'number' || typeof patch.variationId === 'number';
    default:
      return variationColumns.includes(field) && typeof patch.variationId === 'number';
  }
};

const readIdentity = (index: ReferenceIndex, match: Matcher, car: CarRecord, patch: CarPatch): ReadPatch => {
  const { candidates, asWritten, castingId, variationId, ...plainChanges } = patch;
  const changes: CarChanges = plainChanges;
  const chooses = castingId !== undefined || variationId !== undefined;
  if (asWritten !== undefined && !chooses) {
    const { candidates: found, ...identity } = typedIdentity(index, match, car, asWritten);
    return { changes: { ...changes, ...identity }, candidates: candidates ?? found };
  }
  if (asWritten !== undefined) changes.asWritten = { ...car.asWritten, ...asWritten };
  if (typeof variationId === 'number') {
    const variation = index.variations.get(variationId);
    if (!variation) throw notFound('variation', variationId);
    if (typeof castingId === 'number' && castingId !== variation.castingId)
      throw refused('That variation belongs to another casting.');
    Object.assign(changes, {
      variationId,
      releaseId: variation.releaseId,
      castingId: variation.castingId,
    });
    return { changes, candidates: [] };
  }
  if (variationId === null) Object.assign(changes, { variationId: null, releaseId: null });
  if (typeof castingId === 'number') {
    if (!index.castings.has(castingId)) throw notFound('casting', castingId);
    changes.castingId = castingId;
    if (castingId !== car.castingId) Object.assign(changes, { variationId: null, releaseId: null });
  }
  if (castingId === null) Object.assign(changes, { castingId: null, variationId: null, releaseId: null });
  if (candidates !== undefined) {
    const castings = new Set(
      candidates.map(id => {
        const variation = index.variations.get(id);
        if (!variation) throw notFound('variation', id);
        return variation.castingId;
      }),
    );
    const [only] = castings;
    if (only !== undefined && castings.size === 1 && castingId === undefined) changes.castingId = only;
    if (candidates.length > 0) Object.assign(changes, { variationId: null, releaseId: null });
    return { changes, candidates };
  }
  const letsGo = castingId !== undefined && castingId !== car.castingId;
  return { changes, candidates: letsGo ? [] : null };
};

const names: Record<string, string> = {
  inventoryNumber: 'inventory number',
  lotId: 'lot',
  castingId: 'casting',
  variationId: 'variation',
  candidates: 'candidates',
  finishState: 'finish state',
  ownWorth: 'own value',
  boughtOn: 'day of purchase',
};

/** "Changed the grade of 12 cars": what an edit is called in history when its screen gives it no name. */
export const editLabel = (cars: { inventoryNumber: string }[], patches: CarPatch[]): string => {
  const what = new Set(
    patches.flatMap(patch =>
      Object.entries(patch).flatMap(([key, value]) =>
        key === 'asWritten'
          ? Object.keys(value as object).map(column => column.replaceAll('_', ' '))
          : (names[key] ?? key),
      ),
    ),
  );
  const [only] = what;
  const whose = cars.length === 1 ? (cars[0]?.inventoryNumber ?? 'a car') : `${cars.length} cars`;
  return what.size === 1 && only !== undefined ? `Changed the ${only} of ${whose}` : `Changed ${whose}`;
};
