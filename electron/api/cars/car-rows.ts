import { unlessMany } from '../../../db/codec.ts';
import { firstPhotos } from '../../../db/photos/photo-lists.ts';
import { type CarRecord, carCandidates } from '../../../db/records/cars/cars.ts';
import { readDecisions, type StoredDecision } from '../../../db/records/decisions/decisions.ts';
import { type LotRecord, listLots } from '../../../db/records/lots/lots.ts';
import { listWords } from '../../../db/records/own-words/words.ts';
import type { FeatureTexts } from '../../../db/reference/reference.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import type { RowFigures } from '../figures/car-figures.ts';
import { carFigures } from '../figures/figures.ts';
import { isSeenOnly, seenLotsOf } from '../figures/owned.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CarRow } from '../views.ts';
import { ownSynonyms } from './own-synonyms.ts';

const featuresWritten = (written: Record<string, string>): FeatureTexts =>
  Object.fromEntries(
    variationFeatures.map(feature => [feature, written[featureColumns[feature]] ?? '']),
  ) as FeatureTexts;

export const identityOf = (
  index: ReferenceIndex,
  car: Pick<CarRecord, 'castingId' | 'releaseId' | 'variationId' | 'asWritten'>,
) => {
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

const worthsOf = (figures: RowFigures | undefined) =>
  figures
    ? {
        worths: figures.worths,
        recommendation: figures.recommendation,
        probability: figures.probability,
        expectedGain: figures.expectedGain,
      }
    : { worths: noWorths, recommendation: null, probability: null, expectedGain: null };

/** What a row of a car is made of beside the car. */
export interface RowParts {
  index: ReferenceIndex;
  lots: Map<number, LotRecord>;
  photos: Map<number, { sha256: string; photos: number }>;
  candidates: Map<number, number[]>;
  decisions: Map<number, StoredDecision>;
  synonyms: ReturnType<typeof ownSynonyms>;
  /** The lots that were only seen. */
  seen: ReadonlySet<number>;
}

/** A car as lists show it. */
export const carRow = (car: CarRecord, parts: RowParts, figures: RowFigures | undefined): CarRow => {
  const { index, lots, photos, candidates, decisions } = parts;
  const lot = car.lotId === null ? undefined : lots.get(car.lotId);
  const identity = identityOf(index, car);
  return {
    id: car.id,
    inventoryNumber: car.inventoryNumber,
    lotId: car.lotId,
    lot: lot?.name ?? null,
    ...identity,
    ...(car.wornColour !== '' && { swatch: index.swatchOf(car.wornColour) }),
    asWritten: car.asWritten,
    candidateCount: car.variationId === null ? (candidates.get(car.id)?.length ?? 0) : 0,
    grade: car.grade,
    finishState: car.finishState,
    status: car.status,
    isSeen: isSeenOnly(parts.seen, car),
    location: car.location,
    boughtOn: car.boughtOn,
    seller: car.seller,
    notes: car.notes,
    unread: car.unread,
    wornColour: car.wornColour,
    wornFinish: car.wornFinish,
    restorerMark: car.restorerMark,
    said: parts.synonyms({ ...identity, grade: car.grade, finishState: car.finishState }),
    cost: car.cost,
    costFixed: car.costFixed,
    costCurrency: car.cost === null ? null : (lot?.currency ?? null),
    photo: photos.get(car.id)?.sha256 ?? null,
    photoCount: photos.get(car.id)?.photos ?? 0,
    ...worthsOf(figures),
    decided: decisions.get(car.id)?.choice ?? null,
  };
};

/** The cars as lists show them, values and recommendation included. */
export const carRows = async (session: Session, cars: CarRecord[]): Promise<CarRow[]> => {
  const { db } = openOf(session).read;
  const ids = unlessMany(cars.map(car => car.id));
  const figures = await carFigures(session, cars);
  const parts: RowParts = {
    index: await referenceIndex(session),
    lots: new Map((await listLots(db)).map(lot => [lot.id, lot])),
    photos: await firstPhotos(db, ids),
    candidates: await carCandidates(db, ids),
    decisions: await readDecisions(db, ids),
    synonyms: ownSynonyms(await listWords(db)),
    seen: await seenLotsOf(session),
  };
  return cars.map(car => carRow(car, parts, figures.get(car.id)));
};
