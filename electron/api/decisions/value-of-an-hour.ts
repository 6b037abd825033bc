import { setImmediate } from 'node:timers/promises';
import { pieces } from '../../../db/codec.ts';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { readSetting, writeSetting } from '../../../db/records/collection/settings.ts';
import { addAssumptions } from '../../../db/records/worth/assumptions.ts';
import {
  atHourlyRate,
  currencyDecimals,
  type FittedMarket,
  type Minor,
  type Recommendation,
  recommendCar,
  type Subject,
} from '../../../valuation/index.ts';
import { advisesWork } from '../../../valuation/words.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import { allBriefCars } from '../figures/brief-cars.ts';
import { type Figures, figuresById } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import { ownedOf } from '../figures/owned.ts';
import * as inputs from '../inputs.ts';
import { slot } from '../session/cache.ts';
import { needsCollection } from '../session/context.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { ValueOfAnHour } from '../views.ts';

/** Set once the owner has said what an hour is worth to them, also where that is nothing. */
const setting = 'hour-valued';
/** What is tried, in whole units of a currency with decimals. */
const tried = [0, 5, 10, 20];

const rates = ({ reportingCurrency }: FittedMarket): Minor[] =>
  tried.map(one => one * 10 ** Math.max(2, currencyDecimals(reportingCurrency)));

/** So many cars are read together, and so many worked out before other calls have their turn. */
const readTogether = 5000;
const beforeOthers = 100;

const paysForWork = (advice: Recommendation): boolean => advisesWork(advice) && advice !== 'donor';

/**
 * At which of the values a car pays for work, by its figures: these are made anew where the market or anything that
 * counts of the car has changed, and shared by cars that are alike.
 */
const paying = slot(() => new WeakMap<object, Map<number, readonly boolean[]>>());

const payingOf = (session: Session, { packed }: Figures): Map<number, readonly boolean[]> => {
  const known = session.cache.of(paying);
  const found = known.get(packed) ?? new Map<number, readonly boolean[]>();
  known.set(packed, found);
  return found;
};

/**
 * At which values of an hour a car pays for work, from what is recommended where hours cost nothing. A dearer hour makes
 * nothing gain more, so that what is left at one value is left at all above.
 */
const paysAt = (atNothing: Recommendation, markets: readonly FittedMarket[], subject: Subject): boolean[] => {
  let advice = atNothing;
  return [
    paysForWork(atNothing),
    ...markets.map(market => {
      if (advice !== 'leave' && advice !== 'not-enough-evidence')
        advice = recommendCar(market, subject).recommendation;
      return paysForWork(advice);
    }),
  ];
};

const never = tried.map(() => false);

/** Works out, for cars whose figures are not known to pay, at which values they do; other calls are answered meanwhile. */
const workOut = async (
  session: Session,
  ids: readonly number[],
  figures: Figures,
  signal?: AbortSignal,
): Promise<void> => {
  const { db } = openOf(session).read;
  const fitted = await marketToday(session);
  const markets = rates(fitted)
    .slice(1)
    .map(rate => atHourlyRate(fitted, rate));
  const known = payingOf(session, figures);
  const adviceOf = figures.column(({ recommendation }) => recommendation);
  const isOpen = (id: number) => {
    const place = figures.placeOf(id);
    return place !== undefined && !known.has(place);
  };
  for (const id of ids) {
    const place = figures.placeOf(id);
    const advice = adviceOf(id);
    if (place !== undefined && (advice === 'leave' || advice === 'not-enough-evidence'))
      known.set(place, never);
  }
  let worked = 0;
  for (const piece of pieces(ids.filter(isOpen), readTogether)) {
    const missing = piece.filter(isOpen);
    for (const subject of await readSubjects(db, await listCars(db, { ids: missing }))) {
      const place = figures.placeOf(subject.id);
      const advice = adviceOf(subject.id);
      // Another like it may have been worked out meanwhile.
      if (place === undefined || advice === undefined || known.has(place)) continue;
      worked += 1;
      if (worked % beforeOthers === 0) {
        await setImmediate();
        signal?.throwIfAborted();
      }
      known.set(place, paysAt(advice, markets, subject));
    }
  }
};

/**
 * How many cars pay for work at several values of an hour; null once the owner has answered, or where no car
 * pays at any.
 */
export const valueOfAnHour = needsCollection.handler(
  async ({ context: { session, db }, signal }): Promise<ValueOfAnHour | null> => {
    const { body } = await assumptionsInForce(session);
    if (body.hourlyRate !== 0 || (await readSetting(db, setting)) !== undefined) return null;
    const fitted = await marketToday(session);
    const owned = await ownedOf(session, [...(await allBriefCars(session)).values()]);
    const ids = owned.map(({ id }) => id);
    const figures = await figuresById(session, ids);
    await workOut(session, ids, figures, signal);
    const known = payingOf(session, figures);
    const answers = rates(fitted).map((rate, place) => ({ rate, cars: 0, place }));
    for (const id of ids) {
      const place = figures.placeOf(id);
      const pays = place === undefined ? undefined : known.get(place);
      if (pays) for (const answer of answers) if (pays[answer.place]) answer.cars += 1;
    }
    return answers[0]?.cars === 0
      ? null
      : { currency: fitted.reportingCurrency, rates: answers.map(({ rate, cars }) => ({ rate, cars })) };
  },
);

/**
 * Saves what an hour is worth, as a version of the assumptions where it changes them; it is not asked again.
 */
export const setValueOfAnHour = needsCollection
  .input(inputs.valueOfAnHour)
  .handler(async ({ context, input: { rate } }) => {
    const { session } = context;
    const { body } = await assumptionsInForce(session);
    await session.act('Said what an hour at the bench is worth', async trx => {
      await writeSetting(trx, setting, String(rate));
      if (rate === body.hourlyRate) return;
      const { steps: _, ...work } = body.work;
      await addAssumptions(trx, { ...body, work, hourlyRate: rate }, 'What an hour is worth', session.at());
    });
  });
