import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import {
  findBelief,
  listBeliefs,
  removeBeliefs,
  type StoredBelief,
  saveBeliefs,
  updateBelief,
} from '../../../db/records/worth/beliefs.ts';
import { loadMatcher } from '../../../db/reference/match.ts';
import { type Belief, type Currency, heldBeliefs, type IsoDate } from '../../../valuation/index.ts';
import { isCurrency, unknownCurrency } from '../../../valuation/money.ts';
import { readMoney } from '../../../valuation/reading/money.ts';
import { type Reading, understood } from '../../../valuation/reading/reading.ts';
import { readFinishState, readGrade } from '../../../valuation/reading/words.ts';
import { marketToday } from '../figures/market.ts';

import * as inputs from '../inputs.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { Session } from '../session/session.ts';
import type { AddedBeliefs, BeliefView } from '../views.ts';

/** What a belief is about, by name, and its casting; null where the reference has it no longer. */
const subjectOf = (index: ReferenceIndex, { level, of }: Pick<Belief, 'level' | 'of'>) => {
  if (level === 'series') {
    const casting = [...index.castings.values()].find(({ seriesId }) => seriesId === of);
    return casting ? { name: casting.series, castingId: null } : null;
  }
  if (level === 'casting') {
    const casting = index.castings.get(of);
    return casting ? { name: casting.name, castingId: of } : null;
  }
  const variation = index.variations.get(of);
  const casting = variation && index.castings.get(variation.castingId);
  return casting ? { name: `${casting.name}, ${variation.label}`, castingId: casting.id } : null;
};

const list = needsCollection.handler(async ({ context }): Promise<BeliefView[]> => {
  const { session, db } = context;
  const beliefs = await listBeliefs(db);
  if (beliefs.length === 0) return [];
  const index = await referenceIndex(session);
  const fitted = await marketToday(session);
  const held = new Map(heldBeliefs(fitted).map(({ beliefId, against }) => [beliefId, against]));
  const aside = new Map(
    fitted.ownAside.flatMap(({ of, cause }) => ('beliefId' in of ? [[of.beliefId, cause] as const] : [])),
  );
  return beliefs.map(belief => ({
    ...belief,
    ...(subjectOf(index, belief) ?? { name: 'no longer in the reference', castingId: null }),
    aside: aside.get(belief.id) ?? null,
    against: held.get(belief.id) ?? null,
  }));
});

/**
 * Adds a belief, in place of one about the same thing at the same grade and finish, or changes
 * the one of this id.
 */
const save = needsCollection
  .input(inputs.saveBelief)
  .handler(async ({ context, input }): Promise<{ id: number }> => {
    const { session, db } = context;
    const { id, ...given } = input;
    const subject = subjectOf(await referenceIndex(session), given);
    if (!subject) throw refused(`There is no such ${given.level} in the reference.`, 'of');
    if (id !== undefined && !(await findBelief(db, id))) throw notFound('belief', id);
    const belief = {
      ...given,
      currency: given.currency ?? (await readReportingCurrency(db)),
      believedOn: given.believedOn ?? (await session.today()),
    };
    return session.act(`Said what ${subject.name} brings`, async trx => {
      if (id === undefined) return { id: (await saveBeliefs(trx, [belief]))[0] ?? 0 };
      await updateBelief(trx, { ...belief, id });
      return { id };
    });
  });

const plain = (text: string) => text.trim().toLowerCase().replace(/\s+/g, ' ');

/** What the names of a row are about; a sentence where that is not one thing. */
const named = (
  index: ReferenceIndex,
  match: Awaited<ReturnType<typeof loadMatcher>>,
  row: inputs.BeliefRow,
): Pick<Belief, 'level' | 'of'> | string => {
  const { casting, series, variation, maker } = row;
  if (!casting) {
    if (!series) return 'it names neither a casting nor a series';
    const found = [...index.castings.values()].filter(
      one => plain(one.series) === plain(series) && (!maker || plain(one.maker) === plain(maker)),
    );
    const ids = [...new Set(found.map(({ seriesId }) => seriesId))];
    if (ids.length === 1 && ids[0] !== undefined) return { level: 'series', of: ids[0] };
    return ids.length === 0
      ? `there is no series "${series}" with castings in the reference`
      : `there are several series "${series}"; name its maker`;
  }
  const { castingId } = match({ casting, series, maker });
  if (castingId === null) return `there is not exactly one casting "${casting}" in the reference`;
  if (!variation) return { level: 'casting', of: castingId };
  const all = index.ofCasting.get(castingId) ?? [];
  const words = plain(variation).split(/[ ,]+/);
  const fitting = all.filter(({ label }) => plain(label) === plain(variation));
  const near = all.filter(({ label }) => {
    const has = plain(label).split(/[ ,]+/);
    return words.every(word => has.includes(word));
  });
  const [only, ...others] = fitting.length > 0 ? fitting : near;
  if (!only) return `${casting} has no variation "${variation}"`;
  if (others.length > 0)
    return `"${variation}" fits ${others.length + 1} variations of ${casting}: ${[only, ...others].map(({ label }) => label).join('; ')}`;
  return { level: 'variation', of: only.id };
};

const taken = <T>(reading: Reading<T>): T => {
  if (!reading.ok) throw new RangeError(reading.reason);
  return reading.value;
};

const rowToBelief = (
  row: inputs.BeliefRow,
  subject: Pick<Belief, 'level' | 'of'>,
  own: Currency,
  on: IsoDate,
): Omit<StoredBelief, 'id'> => {
  const currency = row.currency.toUpperCase() || own;
  if (!isCurrency(currency)) throw new RangeError(unknownCurrency(row.currency));
  const low = taken(readMoney(row.low, currency));
  const high = taken(readMoney(row.high, currency));
  if (!(low > 0 && high >= low)) throw new RangeError('low must be above zero and not above high');
  return {
    ...subject,
    grade: taken(readGrade(row.grade)),
    finishState: taken(row.finish ? readFinishState(row.finish) : understood('original' as const)),
    low,
    high,
    currency,
    believedOn: on,
    note: row.note,
  };
};

const beliefsOfRows = async (
  session: Session,
  rows: inputs.BeliefRow[],
  match: Awaited<ReturnType<typeof loadMatcher>>,
  own: Currency,
) => {
  const index = await referenceIndex(session);
  const on = await session.today();
  const beliefs: Omit<StoredBelief, 'id'>[] = [];
  const rejected: AddedBeliefs['rejected'] = [];
  rows.forEach((row, i) => {
    const subject = named(index, match, row);
    try {
      if (typeof subject === 'string') throw new RangeError(subject);
      beliefs.push(rowToBelief(row, subject, own, on));
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      rejected.push({ row: i + 1, reason: error.message });
    }
  });
  return { beliefs, rejected };
};

/**
 * Adds beliefs about what is named, as one action; rows that are not understood are told, each
 * with the reason.
 */
const add = needsCollection
  .input(inputs.addBeliefs)
  .handler(async ({ context, input }): Promise<AddedBeliefs> => {
    const { session, db } = context;
    const { beliefs, rejected } = await beliefsOfRows(
      session,
      input.rows,
      await loadMatcher(db),
      await readReportingCurrency(db),
    );
    if (beliefs.length > 0)
      await session.act(
        beliefs.length === 1 ? 'Said what cars bring' : `Said what cars bring, ${beliefs.length} times`,
        trx => saveBeliefs(trx, beliefs),
      );
    return { added: beliefs.length, rejected };
  });

const remove = needsCollection.input(inputs.byId).handler(async ({ context, input }): Promise<void> => {
  const { session, db } = context;
  const belief = await findBelief(db, input.id);
  if (!belief) throw notFound('belief', input.id);
  const name = subjectOf(await referenceIndex(session), belief)?.name ?? 'a casting';
  await session.act(`Took back what ${name} brings`, trx => removeBeliefs(trx, [input.id]));
});

export const beliefs = { list, save, add, remove };
