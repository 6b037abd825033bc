import type { Kysely } from 'kysely';
import { firstPhotos } from '../../../db/photos/photo-lists.ts';
import { type CarRecord, carCandidates } from '../../../db/records/cars.ts';
import { readDecisions } from '../../../db/records/decisions.ts';
import { listLots } from '../../../db/records/lots.ts';
import { featureColumns } from '../../../db/reference/match.ts';
import type { FeatureTexts } from '../../../db/reference/reference.ts';
import type { Schema } from '../../../db/schema.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import { type CarFigures, carFigures } from '../figures/figures.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import type { Session } from '../session/session.ts';
import type { CarRow } from '../views.ts';

const featuresWritten = (written: Record<string, string>): FeatureTexts =>
  Object.fromEntries(
    variationFeatures.map(feature => [feature, written[featureColumns[feature]] ?? '']),
  ) as FeatureTexts;

const identityOf = (index: ReferenceIndex, car: CarRecord) => {
  const variation = car.variationId === null ? undefined : index.variations.get(car.variationId);
  const casting = car.castingId === null ? undefined : index.castings.get(car.castingId);
  const release = car.releaseId === null ? undefined : index.releases.get(car.releaseId);
  const features = variation?.features ?? featuresWritten(car.asWritten);
  const identified: CarRow['identified'] = variation ? 'variation' : casting ? 'casting' : 'no';
  return {
    castingId: car.castingId,
    casting: casting?.name ?? null,
    releaseName: variation?.releaseName ?? release?.name ?? car.asWritten.release_name ?? null,
    releaseYear: variation?.releaseYear ?? release?.year ?? null,
    series: casting?.series ?? null,
    variationId: car.variationId,
    features,
    swatch: variation ? variation.swatch : index.swatchOf(features.colour),
    variation: variation?.label ?? null,
    rarity: variation?.rarity ?? null,
    identified,
  };
};

const noWorths: CarRow['worths'] = { asFound: null, restored: null, originalFinish: null, cost: null };

const worthsOf = (figures: CarFigures | undefined) =>
  figures
    ? {
        worths: figures.worths,
        recommendation: figures.recommendation,
        probability: figures.probability,
        expectedGain: figures.expectedGain,
      }
    : { worths: noWorths, recommendation: null, probability: null, expectedGain: null };

/**
 * The cars as lists show them, worths and recommendation included. `whole` says that these are all the collection's
 * cars, which is read faster than one by one.
 */
export const carRows = async (
  session: Session,
  db: Kysely<Schema>,
  cars: CarRecord[],
  whole = false,
): Promise<CarRow[]> => {
  const ids = whole ? undefined : cars.map(car => car.id);
  const index = await referenceIndex(session);
  const figures = await carFigures(session, cars, whole);
  const lots = new Map((await listLots(db)).map(lot => [lot.id, lot]));
  const photos = await firstPhotos(db, ids);
  const candidates = await carCandidates(db, ids);
  const decisions = await readDecisions(db, ids);
  return cars.map(car => {
    const lot = car.lotId === null ? undefined : lots.get(car.lotId);
    return {
      id: car.id,
      inventoryNumber: car.inventoryNumber,
      lotId: car.lotId,
      lot: lot?.name ?? null,
      ...identityOf(index, car),
      asWritten: car.asWritten,
      candidates: car.variationId === null ? (candidates.get(car.id)?.length ?? 0) : 0,
      grade: car.grade,
      finishState: car.finishState,
      status: car.status,
      location: car.location,
      notes: car.notes,
      cost: car.cost,
      costFixed: car.costFixed,
      costCurrency: car.cost === null ? null : (lot?.currency ?? null),
      photo: photos.get(car.id)?.sha256 ?? null,
      photos: photos.get(car.id)?.photos ?? 0,
      ...worthsOf(figures.get(car.id)),
      decided: decisions.get(car.id)?.choice ?? null,
    };
  });
};
