import { naturalKey, unlessMany } from '../../../db/codec.ts';
import { printedPaths } from '../../../db/photos/photo-files.ts';
import { type CarPhotoRecord, photosOfCars } from '../../../db/photos/photo-lists.ts';
import { makePrintable } from '../../../db/photos/photos.ts';
import { listFinishedWork } from '../../../db/records/bench/finished-work.ts';
import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import { checksOfCars } from '../../../db/records/cars/condition-checks.ts';
import {
  type CarFacts,
  carName,
  conditionText,
  identityFacts,
  statementText,
} from '../../../reports/documents/car-facts.ts';
import type { GalleryCar, GalleryPhoto } from '../../../reports/gallery/gallery.ts';
import { colourNow, disclosureText } from '../../../valuation/wording/cars/disclosure-text.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { viewText } from '../../../valuation/wording/view-text.ts';
import { gradeLabel } from '../../../valuation/words.ts';
import { carRow } from '../cars/car-rows.ts';
import { ownSynonyms } from '../cars/own-synonyms.ts';
import { disclosureFacts } from '../figures/disclosure.ts';
import { ownedOf } from '../figures/owned.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

type Checked = CarFacts['parts'];

const factsOf = (
  index: ReferenceIndex,
  car: CarRecord,
  parts: Checked,
  works: Parameters<typeof disclosureFacts>[2],
) => {
  const row = carRow(
    car,
    {
      index,
      lots: new Map(),
      photos: new Map(),
      candidates: new Map(),
      decisions: new Map(),
      synonyms: ownSynonyms([]),
      seen: new Set(),
    },
    undefined,
  );
  const colour = car.variationId === null ? '' : row.features.colour;
  // A gallery is for everybody: what was done is said, but who did it is left to its owner to tell.
  const done = works.map(work => ({ ...work, who: '' }));
  return { ...row, parts, disclosure: disclosureFacts(car, { colour, parts }, done) };
};

const photoOf = (
  pathOf: (sha256: string) => string,
  { sha256, ...photo }: CarPhotoRecord,
  locale: string,
): GalleryPhoto => ({ path: pathOf(sha256), ...photo, view: viewText(photo.view, locale) });

/** Notes on parts are the owner's own and stay at home, as do values, prices, places, lots and people. */
const galleryCar = (car: ReturnType<typeof factsOf>, photos: GalleryPhoto[], locale: string): GalleryCar => ({
  inventoryNumber: car.inventoryNumber,
  name: carName(car),
  series: car.series,
  colour: colourNow(car.features.colour || car.asWritten.colour || '', car.wornColour),
  swatch: car.swatch,
  condition: conditionText(car, locale),
  statement: statementText(car, locale),
  disclosed: disclosureText(car.disclosure, locale) !== '',
  facts: identityFacts(car, locale),
  parts: car.parts.map(({ part, grade, originality }) => ({
    part: spell(part, locale),
    grade: grade === null ? 'not graded' : gradeLabel(grade),
    originality: spell(originality, locale),
  })),
  photos,
});

/** The owner's cars, or those of a lot, by inventory number, as everybody may see them. */
export const galleryCars = async (
  session: Session,
  { lotId, locale }: { lotId?: number | undefined; locale: string },
): Promise<GalleryCar[]> => {
  const { read, dir } = openOf(session);
  const { db } = read;
  const cars = (await ownedOf(session, await listCars(db, lotId === undefined ? {} : { lotId })))
    .map(car => ({ car, key: naturalKey(car.inventoryNumber) }))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ car }) => car);
  const ids = cars.map(car => car.id);
  const index = await referenceIndex(session);
  const checks = await checksOfCars(db, unlessMany(ids));
  const works = await listFinishedWork(db, unlessMany(ids));
  const photos = await photosOfCars(db, ids);
  await makePrintable(
    dir,
    [...photos.values()].flatMap(own => own.map(({ sha256 }) => sha256)),
    session.options.workers?.heic,
  );
  const pathOf = printedPaths(dir);
  return cars.map(car =>
    galleryCar(
      factsOf(index, car, checks.get(car.id)?.[0]?.parts ?? [], works.get(car.id) ?? []),
      (photos.get(car.id) ?? []).map(photo => photoOf(pathOf, photo, locale)),
      locale,
    ),
  );
};
