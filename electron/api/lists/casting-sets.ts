import { z } from 'zod';
import { listCars } from '../../../db/records/cars/cars.ts';
import {
  type CastingSet,
  insertCastingSet,
  listCastingSets,
  removeCastingSet,
  renameCastingSet,
  setCastingsOf,
} from '../../../db/records/collection/casting-sets.ts';
import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { type Subject, sumOfCars, valueCar, type Worth } from '../../../valuation/index.ts';
import type { Currency, Range } from '../../../valuation/types.ts';
import type { FinishState, Grade } from '../../../valuation/words.ts';
import { grade, id, line } from '../fields.ts';
import { allBriefCars } from '../figures/brief-cars.ts';
import { figuresById } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import { ownedOf } from '../figures/owned.ts';
import * as inputs from '../inputs.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

/** A casting of a set: the best car of it, or, where there is none, what one may bring. */
export interface SetMember {
  castingId: number;
  casting: string;
  series: string;
  year: number | null;
  /** How many cars of it the owner has. */
  cars: number;
  best: {
    id: number;
    inventoryNumber: string;
    grade: Grade | null;
    finishState: FinishState;
    worth: Range | null;
  } | null;
  /** Of a missing one in the grade that is looked for, with its factory finish; null without evidence. */
  price: Range | null;
}

export interface SetPage {
  id: number;
  name: string;
  grade: Grade;
  currency: Currency;
  members: SetMember[];
  missing: number;
  /** Missing castings of which no price can be said; they are not in `completing`. */
  withoutEvidence: string[];
  /** What the other missing ones are expected to cost together, with its 80 % range; null for none. */
  completing: Range | null;
}

const wantedSubject = (castingId: number, wanted: Grade): Subject => ({
  id: 0,
  castingId,
  variationId: null,
  candidates: [],
  grade: wanted,
  finishState: 'original',
  parts: [],
  plan: null,
  ownWorth: null,
});

/** The best car of each casting that is here: the one that is worth most, else that of the highest grade. */
const bestCars = async (session: Session, castingIds: ReadonlySet<number>) => {
  const owned = await ownedOf(session, [...(await allBriefCars(session)).values()]);
  const here = owned.filter(({ castingId }) => castingId !== null && castingIds.has(castingId));
  const figures = await figuresById(
    session,
    here.map(car => car.id),
  );
  const mid = figures.column(({ worths }) => worths.asFound?.mid);
  const rank = (car: (typeof here)[number]) => mid(car.id) ?? -1;
  const best = new Map(
    [...Map.groupBy(here, ({ castingId }) => castingId)].flatMap(([castingId, cars]) => {
      const [first] = cars.toSorted((a, b) => rank(b) - rank(a) || (b.grade ?? 0) - (a.grade ?? 0));
      return castingId === null || !first ? [] : [[castingId, { car: first, cars: cars.length }] as const];
    }),
  );
  const ids = [...best.values()].map(({ car }) => car.id);
  const numbers = new Map(
    (ids.length === 0 ? [] : await listCars(openOf(session).read.db, { ids })).map(car => [
      car.id,
      car.inventoryNumber,
    ]),
  );
  return (castingId: number): Pick<SetMember, 'best' | 'cars'> => {
    const found = best.get(castingId);
    if (!found) return { best: null, cars: 0 };
    const { id: carId, grade: ofCar, finishState } = found.car;
    const worth: Worth | null = figures.of(carId)?.worths.asFound ?? null;
    return {
      cars: found.cars,
      best: {
        id: carId,
        inventoryNumber: numbers.get(carId) ?? '',
        grade: ofCar,
        finishState,
        worth: worth && { low: worth.low, mid: worth.mid, high: worth.high },
      },
    };
  };
};

const findSet = async (session: Session, setId: number): Promise<CastingSet> => {
  const [set] = await listCastingSets(openOf(session).read.db, setId);
  if (!set) throw notFound('set', setId);
  return set;
};

/** A set with what is there, what is missing, and what completing it may cost. */
const setPage = async (session: Session, setId: number, wanted: Grade): Promise<SetPage> => {
  const set = await findSet(session, setId);
  const index = await referenceIndex(session);
  const fitted = await marketToday(session);
  const bestOf = await bestCars(session, new Set(set.castingIds));
  const priced: { car: Subject; worth: Worth }[] = [];
  const members = set.castingIds.flatMap((castingId): SetMember[] => {
    const casting = index.castings.get(castingId);
    if (!casting) return [];
    const { best, cars } = bestOf(castingId);
    const car = wantedSubject(castingId, wanted);
    const worth = best ? null : valueCar(fitted, car).asFound;
    if (worth) priced.push({ car, worth });
    return [
      {
        castingId,
        casting: casting.name,
        series: casting.series,
        year: casting.firstYear,
        cars,
        best,
        price: worth && { low: worth.low, mid: worth.mid, high: worth.high },
      },
    ];
  });
  const missing = members.filter(({ best }) => best === null);
  const { correlation: _, ...completing } = sumOfCars(fitted, priced);
  return {
    id: set.id,
    name: set.name,
    grade: wanted,
    currency: await readReportingCurrency(openOf(session).read.db),
    members,
    missing: missing.length,
    withoutEvidence: missing.filter(({ price }) => price === null).map(({ casting }) => casting),
    completing: priced.length === 0 ? null : completing,
  };
};

const castingIds = z.array(id).max(5000);

const list = needsCollection.handler(({ context: { db } }): Promise<CastingSet[]> => listCastingSets(db));

const page = needsCollection
  .input(inputs.byId.extend({ grade: grade.default(6) }))
  .handler(({ context: { session }, input }) => setPage(session, input.id, input.grade));

/** The name without its outer spaces, where no other set has it. */
const freeName = async (session: Session, text: string, own?: number): Promise<string> => {
  const name = text.trim();
  if (name === '') throw refused('Give the set a name.', 'name');
  const others = (await listCastingSets(openOf(session).read.db)).filter(set => set.id !== own);
  if (others.some(set => set.name.toLowerCase() === name.toLowerCase()))
    throw refused(`Another set is called “${name}” already.`, 'name');
  return name;
};

const known = async (session: Session, ids: readonly number[]): Promise<void> => {
  const { castings } = await referenceIndex(session);
  for (const castingId of ids) if (!castings.has(castingId)) throw notFound('casting', castingId);
};

const create = needsCollection
  .input(z.object({ name: line.min(1), castingIds }))
  .handler(async ({ context: { session }, input }) => {
    const name = await freeName(session, input.name);
    if (input.castingIds.length === 0) throw refused('Choose at least one casting.');
    await known(session, input.castingIds);
    return session.act(`Made the set “${name}”`, async trx => {
      const setId = await insertCastingSet(trx, { name, at: session.at() });
      await setCastingsOf(trx, setId, input.castingIds);
      return { id: setId };
    });
  });

const update = needsCollection
  .input(inputs.byId.extend({ name: line.min(1).optional(), castingIds: castingIds.optional() }))
  .handler(async ({ context: { session }, input }) => {
    const set = await findSet(session, input.id);
    const name = input.name === undefined ? undefined : await freeName(session, input.name, set.id);
    if (input.castingIds) await known(session, input.castingIds);
    await session.act(`Changed the set “${set.name}”`, async trx => {
      if (name !== undefined) await renameCastingSet(trx, set.id, name);
      if (input.castingIds) await setCastingsOf(trx, set.id, input.castingIds);
    });
  });

const remove = needsCollection.input(inputs.byId).handler(async ({ context: { session }, input }) => {
  const set = await findSet(session, input.id);
  await session.act(`Removed the set “${set.name}”`, trx => removeCastingSet(trx, set.id));
});

export const castingSets = { list, page, create, update, remove };
