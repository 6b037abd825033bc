import { readSubjects } from '../../../db/engine/subjects.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { unsortedSeries } from '../../../db/reference/unsorted.ts';
import { helpfulAnswers } from '../../../valuation/index.ts';
import { allBriefCars } from '../figures/brief-cars.ts';
import { figuresById } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import { ownedOf } from '../figures/owned.ts';
import { waitingList } from '../names/waiting.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { NamedAnswer } from '../views.ts';

/** The owner's cars that have no value. */
const withoutValue = async (session: Session): Promise<number[]> => {
  const owned = await ownedOf(session, [...(await allBriefCars(session)).values()]);
  const ids = owned.map(({ id }) => id);
  const figures = await figuresById(session, ids);
  const isValued = figures.column(({ worths }) => worths.asFound !== null);
  return ids.filter(id => !isValued(id));
};

/**
 * What the owner could answer so that cars get a value which have none, the most helpful first; the cars that
 * have none may be given.
 */
export const namedAnswers = async (session: Session, given?: number[]): Promise<NamedAnswer[]> => {
  const { db } = openOf(session).read;
  const valueless = given ?? (await withoutValue(session));
  if (valueless.length === 0) return [];
  const unvalued = await listCars(db, { ids: valueless });
  const index = await referenceIndex(session);
  const { names } = await waitingList(session);
  const answers = helpfulAnswers(await marketToday(session), await readSubjects(db, unvalued), names);
  const seriesOf = new Map(
    [...index.castings.values()].map(({ seriesId, series }) => [
      seriesId,
      series === unsortedSeries ? null : series,
    ]),
  );
  return answers.map(answer => ({
    ...answer,
    casting: answer.kind === 'sales' ? (index.castings.get(answer.castingId)?.name ?? null) : null,
    series: answer.kind === 'name' ? null : (seriesOf.get(answer.seriesId) ?? null),
  }));
};
