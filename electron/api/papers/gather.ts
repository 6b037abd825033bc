import { unlessMany } from '../../../db/codec.ts';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { printedPaths } from '../../../db/photos/photo-files.ts';
import { makePrintable } from '../../../db/photos/photos.ts';
import { listFinishedWork } from '../../../db/records/bench/finished-work.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { checksOfCars } from '../../../db/records/cars/condition-checks.ts';
import type { CastingSet } from '../../../db/records/collection/casting-sets.ts';
import { readDecisions } from '../../../db/records/decisions/decisions.ts';
import { castingDetails } from '../../../db/reference/reference-details.ts';
import type { BidSheetFacts } from '../../../reports/documents/kinds/bid-sheet.ts';
import type { ClaimFacts } from '../../../reports/documents/kinds/claim.ts';
import type { DossierFacts } from '../../../reports/documents/kinds/dossier.ts';
import type { WantedCasting } from '../../../reports/documents/kinds/want-list.ts';
import type { WorksheetCar } from '../../../reports/documents/kinds/worksheet.ts';
import { type FittedMarket, type Range, type Subject, valueCar } from '../../../valuation/index.ts';
import type { WorkPlan } from '../../../valuation/types.ts';
import { carColour } from '../../../valuation/wording/cars/car-names.ts';
import { viewText } from '../../../valuation/wording/view-text.ts';
import { hazardsOf } from '../../../valuation/wording/work/cautions.ts';
import type { Grade } from '../../../valuation/words.ts';
import { carPage } from '../cars/car-page.ts';
import { carPlan, settledKind } from '../cars/car-plan.ts';
import { carRows } from '../cars/car-rows.ts';
import { findCar } from '../cars/find-car.ts';
import { lookListOf } from '../cars/look-list.ts';
import { decideRows } from '../decisions/decision-rows.ts';
import { disclosureFacts } from '../figures/disclosure.ts';
import { marketToday } from '../figures/market.ts';
import { ownedOf } from '../figures/owned.ts';
import { bidTermsOf, bidView } from '../lots/bid.ts';
import { lotPage } from '../lots/lot-page.ts';
import { type IndexedVariation, referenceIndex } from '../reference/reference-index.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CarPage } from '../views.ts';

const photosOfPage = async (
  session: Session,
  page: CarPage,
  locale: string,
): Promise<DossierFacts['photos']> => {
  const { dir } = openOf(session);
  await makePrintable(
    dir,
    page.photos.map(({ sha256 }) => sha256),
    session.options.workers?.heic,
  );
  const pathOf = printedPaths(dir);
  return page.photos.map(({ sha256, view, caption, state }) => ({
    path: pathOf(sha256),
    state,
    caption: [caption || viewText(view, locale), state].filter(Boolean).join(', '),
    alt: `Photograph of ${page.inventoryNumber}${view ? `: ${viewText(view, locale)}` : ''}`,
  }));
};

const factsOfPage = async (session: Session, page: CarPage, locale: string): Promise<DossierFacts> => ({
  ...page,
  parts: page.checks[0]?.parts ?? [],
  worths: {
    asFound: page.worths.asFound,
    restored: page.worths.restored,
    originalFinish: page.worths.originalFinish,
  },
  photos: await photosOfPage(session, page, locale),
});

/** One car with all that papers say of it. */
export const dossierFacts = async (session: Session, carId: number, locale: string): Promise<DossierFacts> =>
  factsOfPage(session, await carPage(session, carId), locale);

const asFound = (fitted: FittedMarket, subject: Subject): Range | null => valueCar(fitted, subject).asFound;

/**
 * What a claim is about: the newest event with its check, else the newest check by itself; and the condition before
 * it: that of the check before it, else the grade that was known when the event was written down, else null.
 */
const claimed = ({ checks, events }: CarPage) => {
  const event = events.find(({ checkId }) => checks.some(({ id }) => id === checkId)) ?? null;
  const at = event ? checks.findIndex(({ id }) => id === event.checkId) : 0;
  const latest = checks[at];
  const earlier = checks[at + 1];
  if (!latest) return null;
  const ofEvent = event &&
    event.before !== null && {
      checkedOn: null,
      grade: event.before,
      finishState: latest.finishState,
      parts: [],
    };
  const before = earlier ? conditionOf(earlier) : ofEvent || null;
  return { event, before, after: conditionOf(latest), notes: latest.notes, isNow: at === 0 };
};

const conditionOf = ({ checkedOn, grade, finishState, parts }: CarPage['checks'][number]) => ({
  checkedOn,
  grade,
  finishState,
  parts: parts.map(({ note: _, ...part }) => part),
});

/**
 * The newest event, else the newest condition check: what it found, and what the car is worth in that condition and
 * in the one before it, where that is recorded.
 */
export const claimFacts = async (session: Session, carId: number, locale: string): Promise<ClaimFacts> => {
  const page = await carPage(session, carId);
  const car = await factsOfPage(session, page, locale);
  const claim = claimed(page);
  if (!claim)
    throw refused(
      'A claim sheet says how the car was found after the event. Record its condition as it is now; where a check from before the event is there, the sheet compares the two.',
    );
  const { event, before, after, notes, isNow } = claim;
  const fitted = await marketToday(session);
  const { db } = openOf(session).read;
  const [now] = (await readSubjects(db, [await findCar(db, carId)])) as [Subject];
  // Their own figures do not tell one condition from the other.
  const subject = { ...now, ownWorth: null };
  const { checkedOn, grade, finishState } = after;
  return {
    car,
    isEvent: event !== null,
    on: event?.happenedOn ?? checkedOn,
    cause: notes,
    before: before && {
      checkedOn: before.checkedOn,
      grade: before.grade,
      finishState: before.finishState,
      worth: asFound(fitted, {
        ...subject,
        grade: before.grade,
        finishState: before.finishState,
        parts: before.parts,
      }),
    },
    after: isNow
      ? { grade, finishState: car.finishState, worth: asFound(fitted, subject) }
      : {
          grade,
          finishState,
          worth: asFound(fitted, { ...subject, grade, finishState, parts: after.parts }),
        },
  };
};

/** Every car to be decided, or those of a lot, by inventory number. */
export const worksheetCars = async (
  session: Session,
  lotId: number | undefined,
  signal: AbortSignal,
): Promise<WorksheetCar[]> => {
  const rows = await decideRows(session, lotId === undefined ? {} : { lotId }, signal);
  const { db } = openOf(session).read;
  const recorded = await readDecisions(db);
  const ids = rows.map(({ car }) => car.id);
  const cars = new Map(
    (await listCars(db, lotId === undefined ? {} : { lotId })).map(car => [car.id, car] as const),
  );
  const works = await listFinishedWork(db, unlessMany(ids));
  const checks = await checksOfCars(db, unlessMany(ids));
  return rows
    .map(({ car, decision }) => {
      const record = cars.get(car.id)!;
      const made = {
        colour: record.variationId === null ? '' : car.features.colour,
        parts: checks.get(car.id)?.[0]?.parts ?? [],
      };
      return {
        ...car,
        decision,
        recorded: recorded.get(car.id) ?? null,
        disclosure: disclosureFacts(record, made, works.get(car.id) ?? []),
      };
    })
    .sort((a, b) => a.inventoryNumber.localeCompare(b.inventoryNumber, 'en', { numeric: true }));
};

/**
 * The plan of a car for what is to be done with it, its owner's own or the one made from the car, and what to
 * look at before it is closed.
 */
export const benchPlan = async (
  session: Session,
  carId: number,
): Promise<{ plan: WorkPlan; lookAt: string[] }> => {
  const kind = await settledKind(session, carId);
  const { plan: planned, notes } = await carPlan(session, { carId, ...(kind && { kind }) });
  // What is noted on the work may call for a caution that none of its steps does.
  const plan = { ...planned, hazards: hazardsOf(planned.kind, [notes], planned.hazards) };
  const { db } = openOf(session).read;
  const [row] = await carRows(session, [await findCar(db, carId)]);
  if (!row) return { plan, lookAt: [] };
  const parts = row.castingId === null ? [] : (await castingDetails(db, row.castingId)).parts;
  return { plan, lookAt: lookListOf(plan.kind, row, parts).map(({ text }) => text) };
};

/** A lot that was seen, with the highest bid for it. */
export const bidFacts = async (
  session: Session,
  lotId: number,
  wish: Omit<Parameters<typeof bidTermsOf>[1], 'lotId'>,
): Promise<BidSheetFacts> => {
  const lot = await lotPage(session, lotId);
  const terms = await bidTermsOf(session, { ...wish, lotId });
  const { bid, total, expectedWorth, probability } = await bidView(session, { ...terms, lotId });
  return {
    ...terms,
    lot: lot.name,
    cars: lot.rows.map(row => ({ ...row, colour: carColour(row), asFound: row.worths.asFound })),
    bid,
    total,
    expectedWorth,
    probability,
  };
};

/**
 * Castings and variations of the reference that no car in the collection is, with what one in that
 * grade may bring; of a set the castings of which there is no car.
 */
export const wantedCastings = async (
  session: Session,
  grade: Grade,
  set?: CastingSet,
): Promise<WantedCasting[]> => {
  const index = await referenceIndex(session);
  const fitted = await marketToday(session);
  const cars = await ownedOf(session, await listCars(openOf(session).read.db));
  const owned = new Set(cars.flatMap(car => car.variationId ?? []));
  const ownedCastings = new Set(cars.flatMap(car => car.castingId ?? []));
  const worthOf = (castingId: number, variationId: number | null): Range | null =>
    asFound(fitted, {
      id: 0,
      castingId,
      variationId,
      candidates: [],
      grade,
      finishState: 'original',
      parts: [],
      plan: null,
      ownWorth: null,
    });
  const lacking = (variations: readonly IndexedVariation[]) => variations.filter(({ id }) => !owned.has(id));
  return [...index.castings.values()].flatMap(casting => {
    const missing = !ownedCastings.has(casting.id);
    if (set && !(missing && set.castingIds.includes(casting.id))) return [];
    const variations = lacking(index.ofCasting.get(casting.id) ?? []);
    if (!missing && variations.length === 0) return [];
    return {
      series: casting.series,
      casting: casting.name,
      year: casting.firstYear,
      missing,
      worth: missing ? worthOf(casting.id, null) : null,
      variations: missing
        ? []
        : variations.map(({ id, label }) => ({ label, worth: worthOf(casting.id, id) })),
    };
  });
};
