import { naturalKey, unlessMany } from '../../../db/codec.ts';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { printedPaths } from '../../../db/photos/photo-files.ts';
import { photosOfCars } from '../../../db/photos/photo-lists.ts';
import { makePrintable } from '../../../db/photos/photos.ts';
import { listFinishedWork } from '../../../db/records/bench/finished-work.ts';
import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import { type ConditionCheck, checksOfCars } from '../../../db/records/cars/condition-checks.ts';
import { leftOutCars } from '../../../db/records/lots/left-out.ts';
import { type LotRecord, listLots } from '../../../db/records/lots/lots.ts';
import { makerCountries } from '../../../db/reference/reference.ts';
import type {
  CarIdentity,
  ReportEntry,
  ReportFormat,
  ReportPhoto,
  ReportWorth,
  SaidOfCar,
} from '../../../reports/types.ts';
import {
  type CarInSum,
  type FittedMarket,
  meanWorth,
  type Range,
  recommendCar,
  type Subject,
  sumOfCars,
  type Valuation,
  valueCar,
  type Worth,
} from '../../../valuation/index.ts';
import { colourNow, disclosureText } from '../../../valuation/wording/cars/disclosure-text.ts';
import { standingWork } from '../../../valuation/wording/cars/disclosure-work.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { viewText } from '../../../valuation/wording/view-text.ts';
import { basisOfWorths, type ValueBasis } from '../../../valuation/words.ts';
import { disclosureFacts } from '../figures/disclosure.ts';
import { isOwned, isSeenOnly, seenLotsOf } from '../figures/owned.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { OnProgress } from '../session/progress.ts';
import type { Session } from '../session/session.ts';

const worthOf = (worth: Worth | null, note: string | null = null): ReportWorth => ({
  expected: worth && meanWorth(worth),
  range: worth && { low: worth.low, mid: worth.mid, high: worth.high },
  own: worth?.own ?? false,
  note: worth ? note : null,
});

const identityOf = (
  index: ReferenceIndex,
  countries: Map<number, string>,
  car: CarRecord,
  features: string,
): CarIdentity => {
  const casting = car.castingId === null ? undefined : index.castings.get(car.castingId);
  const variation = car.variationId === null ? undefined : index.variations.get(car.variationId);
  const release = car.releaseId === null ? undefined : index.releases.get(car.releaseId);
  const written = Object.values(car.asWritten).filter(text => text.trim() !== '');
  return {
    maker: casting?.maker ?? null,
    makerCountry: (casting && countries.get(casting.makerId)) ?? null,
    series: casting?.series ?? null,
    casting: casting?.name ?? null,
    releaseName: release?.name ?? null,
    releaseYear: release?.year ?? null,
    features: variation
      ? Object.fromEntries(Object.entries(variation.features).filter(([, value]) => value !== ''))
      : {},
    swatch: car.wornColour === '' ? (variation?.swatch ?? null) : index.swatchOf(car.wornColour),
    asWritten: variation || written.length === 0 ? null : written.join(', '),
    written: variation ? {} : car.asWritten,
    type: casting ? `die-cast toy car, ${casting.bodyType}` : 'die-cast toy car',
    materials: casting?.materials || null,
    measurements: casting?.lengthMm == null ? null : `length ${casting.lengthMm} mm`,
    markings: casting?.markings || null,
    distinguishingFeatures: features || null,
  };
};

/** What a car's newest check found that tells it from its like: damage, repairs, replaced parts. */
const featuresOf = (check: ConditionCheck | undefined): string => {
  if (!check) return '';
  const parts = check.parts.flatMap(part => {
    const words = [part.originality === 'original' ? '' : part.originality, part.note].filter(Boolean);
    return words.length === 0 ? [] : [`${part.part}: ${words.join(', ')}`];
  });
  return [check.notes, ...parts]
    .map(text => text.trim().replace(/\.$/, ''))
    .filter(Boolean)
    .join('; ');
};

/** The car's photographs as they are printed. */
const photosOf = (
  pathOf: (sha256: string) => string,
  car: CarRecord,
  photos: { sha256: string; view: string; caption: string }[],
  locale: string,
): ReportPhoto[] =>
  photos.map(photo => ({
    path: pathOf(photo.sha256),
    alt: [car.inventoryNumber, viewText(photo.view, locale), photo.caption].filter(Boolean).join(', '),
  }));

const worthsOf = (subject: Subject, valuation: Valuation): ReportEntry['worths'] => ({
  asFound: worthOf(valuation.asFound),
  restored: subject.plan
    ? worthOf(valuation.restored)
    : { range: null, expected: null, own: false, note: 'no restoration planned' },
  originalFinish: worthOf(
    valuation.originalFinish,
    valuation.originalFinish?.attainable === false ? 'no longer attainable' : null,
  ),
});

const acquisitionOf = (car: CarRecord, lot: LotRecord | undefined): ReportEntry['acquisition'] => {
  const { boughtOn, seller } = car;
  if (!lot && boughtOn === null && seller === '') return null;
  return {
    lot: lot?.name ?? null,
    on: boughtOn ?? lot?.boughtOn ?? null,
    from: seller || lot?.seller || null,
    cost: lot ? car.cost : null,
    currency: lot && car.cost !== null ? lot.currency : null,
    own: {
      on: boughtOn,
      from: seller || null,
      isPaid: lot?.priceFrom === 'cars' && car.costFixed,
    },
  };
};

export interface EntriesWanted {
  lotId?: number | undefined;
  carIds?: number[] | undefined;
  includeSold: boolean;
  basis: ValueBasis;
  withPhotographs: boolean;
  withoutPlaces: boolean;
  format: ReportFormat;
  /** With the cars of lots that were only seen, marked as such; for lists of the owner's own. */
  withSeen?: boolean | undefined;
  locale?: string | undefined;
}

/** The cars of a report by inventory number, and all that is recorded of them. */
const readCars = async (session: Session, wanted: EntriesWanted) => {
  const { read, dir } = openOf(session);
  const { db } = read;
  const seen = await seenLotsOf(session);
  const cars = (
    await listCars(db, {
      ...(wanted.carIds && { ids: wanted.carIds }),
      ...(wanted.lotId !== undefined && { lotId: wanted.lotId }),
      includeSold: wanted.includeSold,
    })
  )
    .filter(car => wanted.withSeen || !isSeenOnly(seen, car))
    .map(car => ({ car, key: naturalKey(car.inventoryNumber) }))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ car }) => car);
  const ids = cars.map(car => car.id);
  const photos = wanted.withPhotographs ? await photosOfCars(db, ids) : new Map();
  const recorded = {
    cars,
    seen,
    photos,
    subjects: await readSubjects(db, cars),
    index: await referenceIndex(session),
    countries: await makerCountries(db),
    lots: new Map((await listLots(db)).map(lot => [lot.id, lot])),
    checks: await checksOfCars(db, unlessMany(ids)),
    leftOut: await leftOutCars(db),
    works: await listFinishedWork(db, unlessMany(ids)),
    pathOf: wanted.withPhotographs ? printedPaths(dir) : () => '',
  };
  await makePrintable(
    dir,
    [...photos.values()].flatMap(own => own.map(({ sha256 }: { sha256: string }) => sha256)),
    session.options.workers?.heic,
  );
  return recorded;
};

type Recorded = Awaited<ReturnType<typeof readCars>>;

/** What a report says of a car, and what a later report is compared with. */
const entryOf = (
  { seen, photos, index, countries, lots, checks, leftOut, works, pathOf }: Recorded,
  wanted: EntriesWanted,
  { car, subject, fitted }: { car: CarRecord; subject: Subject; fitted: FittedMarket },
): { entry: ReportEntry; said: SaidOfCar; asFound: Valuation['asFound']; basis: ValueBasis } => {
  const locale = wanted.locale ?? plainLocale;
  const check = checks.get(car.id)?.[0];
  const done = works.get(car.id) ?? [];
  const work = standingWork(done);
  const identity = identityOf(index, countries, car, featuresOf(check));
  const colour = identity.features.colour ?? '';
  const valuation = valueCar(fitted, subject);
  const { asFound } = valuation;
  const basis = asFound?.own ? wanted.basis : basisOfWorths;
  return {
    asFound,
    basis,
    said: {
      id: car.id,
      number: car.inventoryNumber,
      name: [identity.casting ?? identity.asWritten ?? 'Not identified', colourNow(colour, car.wornColour)]
        .filter(Boolean)
        .join(', '),
      grade: car.grade,
      finishState: car.finishState,
      status: car.status,
      value: asFound?.mid ?? null,
    },
    entry: {
      inventoryNumber: car.inventoryNumber,
      photos: photosOf(pathOf, car, photos.get(car.id) ?? [], locale),
      identity,
      grade: car.grade,
      parts: subject.parts.map(part => ({
        ...part,
        note: check?.parts.find(one => one.part === part.part)?.note ?? '',
      })),
      finishState: car.finishState,
      // A plan says what is meant to be done, not what was: only recorded work counts.
      restoration: work
        ? { fidelity: work.fidelity, deviations: [...work.departures], completedOn: work.finishedOn }
        : null,
      worn: { colour: car.wornColour, finish: car.wornFinish },
      disclosure: disclosureText(disclosureFacts(car, { colour, parts: subject.parts }, done), locale),
      status: car.status,
      acquisition: acquisitionOf(car, car.lotId === null ? undefined : lots.get(car.lotId)),
      location: wanted.withoutPlaces ? null : car.location || null,
      documentedOn: check?.checkedOn ?? null,
      // What the records tell is what willing buyers paid; only a figure of the owner's own can stand
      // on another basis.
      basis: basis === wanted.basis ? null : basis,
      worths: worthsOf(subject, valuation),
      restorationCost: subject.plan ? (recommendCar(fitted, subject, valuation).plan?.cost ?? null) : null,
      evidence: asFound ? valuation.evidence : null,
      notes: car.notes || null,
      notUnderstood: car.unread.map(({ column, text }) => `${column}: ${text}`).join('; ') || null,
      listed: {
        isSeen: isSeenOnly(seen, car),
        restorerMark: car.restorerMark,
        ownWorth: car.ownWorth,
        purchaseLeftOut: leftOut.get(car.id) ?? null,
      },
    },
  };
};

/** The cars of a report, by inventory number, valued by the market that is given. */
export const reportEntries = async (
  session: Session,
  wanted: EntriesWanted,
  { fitted, onProgress, signal }: { fitted: FittedMarket; onProgress: OnProgress; signal: AbortSignal },
): Promise<{ entries: ReportEntry[]; said: SaidOfCar[]; sums: Partial<Record<ValueBasis, Range>> }> => {
  const recorded = await readCars(session, wanted);
  const { cars, seen, subjects } = recorded;
  const entries: ReportEntry[] = [];
  const said: SaidOfCar[] = [];
  const summed = new Map<ValueBasis, CarInSum[]>([[wanted.basis, []]]);
  for (const [i, car] of cars.entries()) {
    const subject = subjects[i];
    if (!subject) continue;
    if (i % 100 === 0) {
      onProgress(i, cars.length, 'Valuing the cars');
      await new Promise(resolve => setImmediate(resolve));
      signal.throwIfAborted();
    }
    const made = entryOf(recorded, wanted, { car, subject, fitted });
    entries.push(made.entry);
    said.push(made.said);
    if (made.asFound && isOwned(seen, car)) {
      const members = summed.get(made.basis) ?? [];
      summed.set(made.basis, members);
      members.push({ car: subject, worth: made.asFound });
    }
  }
  const sums = Object.fromEntries(
    [...summed].map(([basis, members]) => {
      const { correlation: _, ...range } = sumOfCars(fitted, members);
      return [basis, range];
    }),
  );
  return { entries, said, sums };
};
