import { readSubjects } from '../../../db/engine/subjects.ts';
import { carStandings, listCars } from '../../../db/records/cars/cars.ts';
import { type LookUp, lookUpNext, normalQuantile } from '../../../valuation/index.ts';
import type { NamedLookUp } from '../../../valuation/wording/values/look-up-text.ts';
import { figuresById } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import { isOwned, seenLotsOf } from '../figures/owned.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { keptAnswer } from '../session/kept-answer.ts';
import { memo } from '../session/memo.ts';

/** The cars whose decisions are looked into: those that leave the most open. */
const mostCars = 300;

/** Roughly what is left open by a gain and the chance that it is one: the loss if the better guess is wrong. */
const leftOpen = (expectedGain: number | null, probability: number | null): number => {
  if (expectedGain === null || probability === null || probability <= 0 || probability >= 1) return 0;
  const z = Math.max(0.05, Math.abs(normalQuantile(probability)));
  return (Math.abs(expectedGain) / z) * Math.exp((-z * z) / 2);
};

const nameOf = ({ castings, variations }: ReferenceIndex, { of, id }: LookUp): string | null => {
  if (of === 'casting') return castings.get(id)?.name ?? null;
  if (of === 'series') return [...castings.values()].find(({ seriesId }) => seriesId === id)?.series ?? null;
  const variation = variations.get(id);
  const casting = variation && castings.get(variation.castingId);
  return variation && casting ? `${casting.name}, ${variation.label}` : null;
};

/** What to look up next, by name, remembered until anything has changed that it was worked out from. */
const worthLookingUp = memo(async ({ db, from, session }): Promise<NamedLookUp[]> => {
  const fitted = await from(marketToday);
  const index = await from(referenceIndex);
  const seen = await from(seenLotsOf);
  const here = (await carStandings(db)).flatMap(car => (isOwned(seen, car) ? [car.id] : []));
  const figures = await figuresById(session, here);
  const gain = figures.column(({ expectedGain }) => expectedGain);
  const chance = figures.column(({ probability }) => probability);
  const open: { id: number; open: number }[] = [];
  for (const id of here) {
    const left = leftOpen(gain(id) ?? null, chance(id) ?? null);
    if (left > 0) open.push({ id, open: left });
  }
  const ids = open
    .sort((a, b) => b.open - a.open || a.id - b.id)
    .slice(0, mostCars)
    .map(({ id }) => id);
  const byId = new Map((await listCars(db, { ids })).map(car => [car.id, car]));
  const subjects = await readSubjects(
    db,
    ids.flatMap(id => byId.get(id) ?? []),
  );
  return lookUpNext(fitted, subjects).flatMap(one => {
    const name = nameOf(index, one);
    return name === null ? [] : [{ ...one, name }];
  });
});

const looked = keptAnswer<NamedLookUp[]>('look up');

/** Kinds of sales to look up next, each with what it is expected to be worth to the decisions. */
export const lookUp = needsCollection.handler(
  ({ context: { session } }): Promise<NamedLookUp[]> => looked.given(session, () => worthLookingUp(session)),
);
