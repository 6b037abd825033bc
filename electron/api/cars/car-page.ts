import type { Kysely } from 'kysely';
import { readWorkedFrom } from '../../../db/engine/specifications.ts';
import { type Hanging, subjectsOf } from '../../../db/engine/subjects.ts';
import { listPhotos } from '../../../db/photos/photo-lists.ts';
import { listFinishedWork } from '../../../db/records/bench/finished-work.ts';
import { givenUpOf, partsOfCar } from '../../../db/records/bench/job-details.ts';
import { listCarEvents } from '../../../db/records/cars/car-events.ts';
import { historyOfCar } from '../../../db/records/cars/car-history.ts';
import {
  type CarRecord,
  carCandidates,
  inventoryNumbers,
  neighbours,
} from '../../../db/records/cars/cars.ts';
import { carChecks } from '../../../db/records/cars/condition-checks.ts';
import { listDisposals, listExpenses } from '../../../db/records/cars/disposals.ts';
import { readDecisions, type StoredDecision } from '../../../db/records/decisions/decisions.ts';
import { findLot, type LotRecord } from '../../../db/records/lots/lots.ts';
import { listWords } from '../../../db/records/own-words/words.ts';
import { readCarePlans } from '../../../db/records/plans/care-plans.ts';
import { readPlans } from '../../../db/records/plans/plans.ts';
import { listValuations } from '../../../db/records/worth/valuations.ts';
import { referenceUse } from '../../../db/reference/reference.ts';
import { variationSpecification } from '../../../db/reference/reference-details.ts';
import type { Schema } from '../../../db/schema.ts';
import {
  type Decision,
  decideCar,
  proposedPlan,
  type RestorationPlan,
  type Subject,
  valueCar,
} from '../../../valuation/index.ts';
import { specificationText } from '../../../valuation/wording/cars/specification-text.ts';
import { finishAt } from '../../../valuation/work/finish-at.ts';
import { figuresOfDecision } from '../figures/car-figures.ts';
import { disclosureFacts } from '../figures/disclosure.ts';
import { marketToday } from '../figures/market.ts';
import { seenLotsOf } from '../figures/owned.ts';
import { purchasesOfLot } from '../figures/purchase-evidence.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { variationRow } from '../reference/reference-rows.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CarPage, CarRow, DecisionView, FittedPartView, PlanView } from '../views.ts';
import { hazardsOfWork } from './car-plan.ts';
import { carRow } from './car-rows.ts';
import { findCar } from './find-car.ts';
import { ownSynonyms } from './own-synonyms.ts';
import { photoView } from './photo-view.ts';
import { disposalView } from './sold-cars.ts';

const planView = (
  own: (RestorationPlan & { notes: string }) | undefined,
  standard: RestorationPlan,
): PlanView => {
  const { targetGrade, kind, deviations, lines, hours, spoilChance, spoiledShare, partsAfter } =
    own ?? standard;
  return {
    targetGrade,
    kind,
    deviations,
    lines,
    hours,
    spoilChance,
    spoiledShare,
    partsAfter,
    notes: own?.notes ?? '',
    standard: own === undefined,
  };
};

/** A decision with the car it is about and what its owner recorded. */
export const decisionView = (
  decision: Decision,
  car: Pick<CarRow, 'inventoryNumber' | 'casting' | 'variation'>,
  recorded: StoredDecision | undefined,
): DecisionView => ({
  ...decision,
  inventoryNumber: car.inventoryNumber,
  casting: car.casting,
  variation: car.variation,
  recorded: recorded
    ? {
        choice: recorded.choice,
        decidedOn: recorded.decidedOn,
        recommended: recorded.recommended,
        overruled: recorded.overruled,
        reason: recorded.reason,
      }
    : null,
});

/** What was paid for a car, alone or in its lot, as evidence. */
const purchaseOf = async (
  session: Session,
  car: Pick<CarRecord, 'id' | 'inventoryNumber'>,
  lot: LotRecord,
): Promise<CarPage['purchase']> => {
  const found = (await purchasesOfLot(session, lot.id, () => car.inventoryNumber)).find(({ carIds }) =>
    carIds.includes(car.id),
  );
  return found ? { ...found.purchase, lotId: lot.id, lot: lot.name, currency: lot.currency } : null;
};

/** The parts that were fitted to a car or taken from it, with the numbers of both cars. */
const fittedParts = async (db: Kysely<Schema>, id: number): Promise<FittedPartView[]> => {
  const parts = await partsOfCar(db, id);
  const numbers = await inventoryNumbers(
    db,
    parts.flatMap(({ carId, donorCarId }) => (donorCarId === null ? [carId] : [carId, donorCarId])),
  );
  return parts.map(part => ({
    ...part,
    inventoryNumber: numbers.get(part.carId) ?? '',
    donorNumber: part.donorCarId === null ? null : (numbers.get(part.donorCarId) ?? null),
  }));
};

/** What is known of how the factory made the variation of a car. */
const specificationOf = async (db: Kysely<Schema>, variationId: number | null): Promise<string> => {
  const known = variationId === null ? null : await variationSpecification(db, variationId);
  return known ? specificationText(known) : '';
};

/** All that is known of one car. */
export const carPage = async (session: Session, id: number): Promise<CarPage> => {
  const { db } = openOf(session).read;
  const car = await findCar(db, id);
  const fitted = await marketToday(session);
  const index = await referenceIndex(session);
  const checks = await carChecks(db, id);
  const lot = car.lotId === null ? undefined : await findLot(db, car.lotId);
  const photos = await listPhotos(db, { carId: id });
  const works = (await listFinishedWork(db, [id])).get(id) ?? [];
  const hanging: Hanging = {
    works: new Map([[id, works]]),
    workedFrom: await readWorkedFrom(db, [car]),
    candidates: await carCandidates(db, [id]),
    parts: new Map([[id, (checks[0]?.parts ?? []).map(({ note: _, ...part }) => part)]]),
    plans: await readPlans(db, [id]),
    care: await readCarePlans(db, [id]),
    decisions: await readDecisions(db, [id]),
  };
  const [subject] = subjectsOf([car], hanging) as [Subject];
  const valuation = valueCar(fitted, subject);
  const decision = decideCar(fitted, subject, valuation);
  const row = carRow(
    car,
    {
      index,
      lots: new Map(lot && [[lot.id, lot]]),
      photos: new Map(photos[0] && [[id, { sha256: photos[0].sha256, photos: photos.length }]]),
      candidates: hanging.candidates,
      decisions: hanging.decisions,
      synonyms: ownSynonyms(await listWords(db)),
      seen: await seenLotsOf(session),
    },
    figuresOfDecision(valuation, decision, subject.plan?.kind ?? 'restore'),
  );
  const parts = await fittedParts(db, id);
  const use = await referenceUse(db);
  const expenses = await listExpenses(db, [id]);
  const [disposal] = await listDisposals(db, [id]);
  const candidates = hanging.candidates.get(id) ?? [];
  const known = car.castingId !== null || car.ownWorth !== null;
  const own = hanging.plans.get(id);
  return {
    ...row,
    ownWorth: car.ownWorth,
    work: works.map(({ carId: _, ...work }) => work),
    disclosure: disclosureFacts(
      car,
      { colour: car.variationId === null ? '' : row.features.colour, parts: subject.parts },
      works,
    ),
    candidates: candidates.flatMap(candidate => {
      const variation = index.variations.get(candidate);
      return variation ? [variationRow(index, variation, use)] : [];
    }),
    photos: photos.map(photoView),
    checks: checks.map(check => ({
      ...check,
      finishState: finishAt(check.checkedOn, works, car.finishState),
    })),
    events: await listCarEvents(db, id),
    givenUp: await givenUpOf(db, id),
    fitted: parts.filter(part => part.carId === id),
    gave: parts.filter(part => part.donorCarId === id),
    castingParts: subject.spec?.parts ?? null,
    plan: own || known ? planView(own, proposedPlan(subject, fitted.assumptions)) : null,
    hazards: await hazardsOfWork(db, {
      subject,
      assumptions: fitted.assumptions,
      kinds: decision.options.flatMap(({ option }) => (option === 'leave' ? [] : [option])),
      notes: own?.notes ?? '',
      care: hanging.care.get(id) ?? [],
    }),
    decision: decisionView(decision, row, hanging.decisions.get(id)),
    evidence: valuation.evidence,
    purchase: lot ? await purchaseOf(session, car, lot) : null,
    fidelity: valuation.fidelity,
    help: valuation.help,
    expenses: expenses.map(({ carId: _, ...expense }) => expense),
    disposal: disposal ? disposalView(disposal, car.cost, row.costCurrency, expenses) : null,
    valuations: (await listValuations(db, id)).map(({ on, asFound, restored, originalFinish }) => ({
      on,
      asFound,
      restored,
      originalFinish,
    })),
    history: await historyOfCar(db, id, {
      checks: checks.map(check => check.id),
      disposals: disposal ? [disposal.id] : [],
      expenses: expenses.map(expense => expense.id),
    }),
    factorySpecification: await specificationOf(db, car.variationId),
    ...(await neighbours(db, id)),
  };
};
