import type { Kysely } from 'kysely';
import { readHanging, subjectsOf } from '../../../db/engine/subjects.ts';
import { listJobs } from '../../../db/records/bench/jobs.ts';
import { readDecisions } from '../../../db/records/decisions/decisions.ts';
import { listSeasons } from '../../../db/records/decisions/seasons.ts';
import { type CarePlan, readCarePlans } from '../../../db/records/plans/care-plans.ts';
import type { SavedLine } from '../../../db/records/plans/plan-steps.ts';
import { readMadeOf, readPlans } from '../../../db/records/plans/plans.ts';
import type { Schema } from '../../../db/schema.ts';
import {
  type AssumptionSet,
  decideCar,
  type FittedMarket,
  madePlan,
  type PlanWishes,
  planFidelity,
  planFromCar,
  restorationPlanOf,
  type Subject,
  stepsInOrder,
  stepsOf,
  type ThreePoint,
  type WorkPlan,
} from '../../../valuation/index.ts';
import { type Hazard, hazardsIn, hazardsOf } from '../../../valuation/wording/work/cautions.ts';
import { hazards, paintsCar, type WorkKind } from '../../../valuation/words.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import { marketToday } from '../figures/market.ts';
import { stepsInForce, stepsOfVersion } from '../figures/steps.ts';
import { withColourDeparture } from '../reference/colour-standing.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CarPlanView } from '../views.ts';
import { findCar } from './find-car.ts';

const withNamed = <Line extends { name?: string; hazards?: readonly Hazard[] }>(line: Line): Line => {
  if (line.name === undefined) return line;
  const named = hazardsIn([line.name]);
  if (named.length === 0) return line;
  return {
    ...line,
    hazards: hazards.filter(hazard => line.hazards?.includes(hazard) || named.includes(hazard)),
  };
};

/** The owner's own lines, and those that were given another name, bring the cautions that their words call for. */
const withCautions = (wishes: PlanWishes): PlanWishes => ({
  ...wishes,
  ...(wishes.added && { added: wishes.added.map(withNamed) }),
  ...(wishes.changed && {
    changed: Object.fromEntries(Object.entries(wishes.changed).map(([id, line]) => [id, withNamed(line)])),
  }),
});

/**
 * What can injure in the work that is open to a car, by the steps of its plan for each kind: the saved one,
 * else the one made from the car, by which it is judged. A plan written down in figures has no steps, so there
 * the words of its lines say it, with what its kind always brings. In the order of `hazards`.
 */
export const hazardsOfWork = async (
  db: Kysely<Schema>,
  {
    subject,
    assumptions,
    kinds,
    notes,
    care,
  }: {
    subject: Subject;
    /** Those by which the car is judged. */
    assumptions: AssumptionSet;
    kinds: readonly WorkKind[];
    notes: string;
    care: readonly CarePlan[];
  },
): Promise<Hazard[]> => {
  const made = await readMadeOf(db, subject.id);
  const found = new Set<Hazard>();
  for (const kind of kinds) {
    const mine = made?.kind === kind ? made : care.find(plan => plan.kind === kind);
    const figures = !made && subject.plan?.kind === kind ? subject.plan : null;
    const told = figures
      ? hazardsOf(kind, [notes, ...figures.lines.map(line => line.name)])
      : mine
        ? hazardsOf(kind, [mine.notes], (await savedPlan(db, subject, assumptions, kind, mine)).hazards)
        : hazardsOf(kind, [''], madePlan(subject, assumptions, kind).hazards);
    for (const hazard of told) found.add(hazard);
  }
  return hazards.filter(hazard => found.has(hazard));
};

/** A saved plan as the car is today, with the steps of which it was made where that version can be read. */
const savedPlan = async (
  db: Kysely<Schema>,
  subject: Subject,
  assumptions: AssumptionSet,
  kind: WorkKind,
  { wishes, libraryVersion }: Pick<Mine, 'wishes' | 'libraryVersion'>,
): Promise<WorkPlan> => {
  const steps = await stepsOfVersion(db, libraryVersion);
  return planFromCar(subject, withSteps(assumptions, steps), kind, withCautions(wishes));
};

const outcomeOf = (fitted: FittedMarket, subject: Subject, plan: WorkPlan) => {
  const weighed: Subject = paintsCar(plan.kind)
    ? { ...subject, plan: restorationPlanOf(plan) }
    : { ...subject, care: { ...subject.care, [plan.kind]: plan } };
  return decideCar(fitted, weighed).options.find(({ option }) => option === plan.kind) ?? null;
};

const workOn = async (session: Session, carId: number) => {
  const { db } = openOf(session).read;
  const car = await findCar(db, carId);
  const [subject] = subjectsOf([car], await readHanging(db, [car]));
  return { car, subject: subject!, db };
};

const sumOf = (points: readonly ThreePoint[]): ThreePoint =>
  points.reduce(
    (sum, { low, likely, high }) => ({
      low: sum.low + low,
      likely: sum.likely + likely,
      high: sum.high + high,
    }),
    { low: 0, likely: 0, high: 0 },
  );

/** Hours, cost and lines, to the minute, as they are saved. */
const told = (hours: ThreePoint, cost: ThreePoint, lines: readonly SavedLine[]): string =>
  JSON.stringify([
    [hours.low, hours.likely, hours.high].map(hour => Math.round(hour * 60)),
    [cost.low, cost.likely, cost.high].map(Math.round),
    lines.map(({ id, name, hands }) => [id, name, Math.round(hands.likely)]),
  ]);

/** A saved plan that was made from its car: what it takes, and what it was made of. */
type Mine = Pick<CarePlan, 'hours' | 'cost' | 'wishes' | 'libraryVersion' | 'lines' | 'notes'>;

/**
 * What was saved and still counts, where the car would now be planned otherwise by the same wishes; null
 * where it would not.
 */
const savedOtherwise = ({ hours, cost, lines }: Mine, now: WorkPlan): CarPlanView['before'] => {
  const same = told(hours, cost, lines) === told(now.hours, now.cost, now.lines);
  return same ? null : { hours, cost };
};

const withSteps = (body: AssumptionSet, steps: AssumptionSet['work']['steps']): AssumptionSet => ({
  ...body,
  work: { ...body.work, ...(steps && { steps }) },
});

/**
 * What is to be done with a car, as far as its owner has settled that: by the job on the bench, by the
 * current season, by a decision; undefined where nothing is settled.
 */
export const settledKind = async (session: Session, carId: number): Promise<WorkKind | undefined> => {
  const { db } = openOf(session).read;
  const job = (await listJobs(db)).find(
    one => one.carId === carId && one.state !== 'finished' && one.state !== 'given up',
  );
  if (job) return job.kind;
  const season = (await listSeasons(db)).find(({ current }) => current);
  const planned = season?.cars.find(one => one.carId === carId);
  if (planned) return planned.kind;
  const choice = (await readDecisions(db, [carId])).get(carId)?.choice;
  return choice === 'leave' ? undefined : choice;
};

/**
 * The plan of a car: as its owner wishes it, else the saved one of its kind, else the one made from the car.
 * A saved plan goes on with the steps of which it was made, where that version can be read.
 */
export const carPlan = async (
  session: Session,
  { carId, kind: wanted, wishes: wished }: { carId: number; kind?: WorkKind; wishes?: PlanWishes },
): Promise<CarPlanView> => {
  const { car, subject, db } = await workOn(session, carId);
  const made = await readMadeOf(db, carId);
  const stored = (await readPlans(db, [carId])).get(carId);
  const kind = wanted ?? made?.kind ?? stored?.kind ?? 'restore';
  const care = (await readCarePlans(db, [carId])).get(carId);
  const mine: Mine | undefined = paintsCar(kind)
    ? made?.kind === kind && stored
      ? { ...made, hours: stored.hours, cost: sumOf(stored.lines.map(line => line.cost)) }
      : undefined
    : care?.find(plan => plan.kind === kind);
  const { body } = await assumptionsInForce(session);
  const inForce = await stepsInForce(session);
  const own = mine && (await stepsOfVersion(db, mine.libraryVersion));
  const libraryVersion = own ? mine.libraryVersion : inForce.version;
  const assumptions = withSteps(body, own ?? inForce.steps);
  const wishes = withColourDeparture(
    withCautions(wished ?? mine?.wishes ?? {}),
    await referenceIndex(session),
    car,
  );
  const plan = planFromCar(subject, assumptions, kind, wishes);
  const before = mine && savedOtherwise(mine, planFromCar(subject, assumptions, kind, mine.wishes));
  const has = new Set(plan.lines.map(({ id }) => id));
  return {
    kind,
    plan,
    wishes,
    libraryVersion,
    notes: mine?.notes ?? '',
    saved: mine ? 'steps' : paintsCar(kind) && stored && !made ? 'figures' : 'nothing',
    before: before ?? null,
    outcome: outcomeOf(await marketToday(session), subject, plan),
    fidelity: paintsCar(kind) ? planFidelity(restorationPlanOf(plan), body.deviationLoss) : null,
    more: stepsInOrder(stepsOf(assumptions), kind)
      .filter(step => !has.has(step.id) && step.call.closures === undefined)
      .map(({ id, name }) => ({ id, name })),
    shelf: subject.shelf ?? [],
  };
};
