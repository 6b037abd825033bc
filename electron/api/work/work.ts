import { readSubjects } from '../../../db/engine/subjects.ts';
import { listFinishedWork } from '../../../db/records/bench/finished-work.ts';
import {
  closeSeason as closeSeasonRow,
  listSeasons,
  removeSeason as removeSeasonRow,
  type Season,
  type SeasonCar,
  saveSeason as saveSeasonRows,
  setCurrentSeason as setCurrentSeasonRow,
} from '../../../db/records/decisions/seasons.ts';
import { addSteps } from '../../../db/records/plans/step-library.ts';
import { planFromCar, type WorkPlan } from '../../../valuation/index.ts';
import { beforeItself } from '../../../valuation/work/before-itself.ts';
import { findCar } from '../cars/find-car.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import { rangeOf } from '../figures/season-range.ts';
import { stepsInForce } from '../figures/steps.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { SeasonView, StepsView } from '../views.ts';
import { seasonColours } from './colours.ts';
import { acceptLearned, learned } from './learned.ts';
import { seasonView } from './season-view.ts';

/** What is to be done to a car, made from the car as it is. */
const plan = needsCollection
  .input(inputs.planFromCar)
  .handler(async ({ context, input }): Promise<WorkPlan> => {
    const car = await findCar(context.db, input.carId);
    const [subject] = await readSubjects(context.db, [car]);
    if (!subject) throw notFound('car', input.carId);
    const { body } = await assumptionsInForce(context.session);
    const { aim, closure, without, leaveOff, departures } = input.wishes;
    return planFromCar(subject, body, input.kind, {
      ...(aim !== undefined && { aim }),
      ...(closure && { closure }),
      ...(without && { without }),
      ...(leaveOff && { leaveOff }),
      ...(departures && { departures }),
    });
  });

const steps = needsCollection.handler(({ context }): Promise<StepsView> => stepsInForce(context.session));

/** Saves a new version of the steps; refused where steps come before themselves. */
const saveSteps = needsCollection.input(inputs.saveSteps).handler(async ({ context, input }) => {
  const { session } = context;
  const ring = beforeItself(input.steps);
  if (ring) throw refused(`The step “${ring.name}” would come before itself.`);
  await session.act('Changed the steps of work', trx => addSteps(trx, input.steps, input.note, session.at()));
});

const seasons = needsCollection.handler(
  async ({ context }): Promise<SeasonView[]> => seasonView(context.session, await listSeasons(context.db)),
);

const found = async (all: Promise<Season[]>, id: number): Promise<Season> => {
  const season = (await all).find(one => one.id === id);
  if (!season) throw notFound('season', id);
  return season;
};

/**
 * The range of what a season is expected to gain, about the sum of what its cars are: of the work that is
 * still ahead. It stays as it was where the same is expected of the same cars, so that renaming a season does
 * not move it.
 */
const expectedRange = async (
  session: Session,
  { expected, cars }: Pick<Season, 'expected'> & { cars: readonly Omit<SeasonCar, 'colour'>[] },
  before: Season | undefined,
): Promise<Pick<Season, 'expectedLow' | 'expectedHigh'>> => {
  const told = (list: readonly Omit<SeasonCar, 'colour'>[]) =>
    JSON.stringify(list.map(({ carId, kind, expected: gain }) => [carId, kind, gain]).sort());
  if (before && before.expected === expected && told(before.cars) === told(cars)) {
    const { expectedLow, expectedHigh } = before;
    return { expectedLow, expectedHigh };
  }
  const { db } = openOf(session).read;
  const ids = cars.map(({ carId }) => carId);
  const finished = await listFinishedWork(db, before ? ids : []);
  const isAhead = ({ carId }: { carId: number }) =>
    !finished.get(carId)?.some(({ finishedOn }) => before && finishedOn >= before.madeOn);
  const ahead = cars.filter(isAhead);
  const range =
    expected === null
      ? null
      : await rangeOf(
          session,
          ahead.map(({ carId, kind }) => ({ carId, option: kind })),
        );
  if (!range || expected === null) return { expectedLow: null, expectedHigh: null };
  return {
    expectedLow: expected + range.low - range.mid,
    expectedHigh: expected + range.high - range.mid,
  };
};

const saveSeason = needsCollection.input(inputs.saveSeason).handler(async ({ context, input }) => {
  const { session, db } = context;
  const all = await listSeasons(db);
  if (input.id !== null && !all.some(one => one.id === input.id)) throw notFound('season', input.id);
  const named = all.find(one => one.name.toLowerCase() === input.name.toLowerCase());
  if (named && named.id !== input.id) throw refused(`There is a season called ${named.name} already.`);
  const cars = new Set(input.cars.map(({ carId }) => carId));
  if (cars.size !== input.cars.length) throw refused('A car can be in a season only once.');
  for (const carId of cars) await findCar(db, carId);
  const on = await session.today();
  const before = all.find(one => one.id === input.id);
  const range = await expectedRange(session, input, before);
  const id = await session.act(`${input.id === null ? 'Made' : 'Changed'} the season ${input.name}`, trx =>
    saveSeasonRows(trx, { ...input, ...range }, on),
  );
  return { id };
});

const setCurrentSeason = needsCollection
  .input(inputs.setCurrentSeason)
  .handler(async ({ context, input }) => {
    const name = input.id === null ? null : (await found(listSeasons(context.db), input.id)).name;
    await context.session.act(
      name === null ? 'Left no season current' : `Made ${name} the current season`,
      trx => setCurrentSeasonRow(trx, input.id),
    );
  });

const closeSeason = needsCollection.input(inputs.closeSeason).handler(async ({ context, input }) => {
  const { name } = await found(listSeasons(context.db), input.id);
  await context.session.act(`Closed the season ${name}`, trx => closeSeasonRow(trx, input.id, input.on));
});

const removeSeason = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const { name } = await found(listSeasons(context.db), input.id);
  await context.session.act(`Removed the season ${name}`, trx => removeSeasonRow(trx, input.id));
});

export const work = {
  plan,
  steps,
  saveSteps,
  seasons,
  saveSeason,
  setCurrentSeason,
  closeSeason,
  removeSeason,
  colours: seasonColours,
  learned,
  acceptLearned,
};
