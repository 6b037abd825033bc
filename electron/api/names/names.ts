import { type Settlement, settleNames } from '../../../db/records/names/settle-names.ts';
import type { WaitingGroup } from '../../../db/records/names/waiting-names.ts';
import { partNames } from '../../../db/reference/settled-names.ts';
import { nearness } from '../../../valuation/reading/names/likeness.ts';
import { nameKey } from '../../../valuation/reading/names/name-key.ts';
import * as inputs from '../inputs.ts';
import { followOwnSales } from '../reference/own-sales.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { suggestFrom } from '../reference/suggest.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { Session } from '../session/session.ts';
import type { NearCasting, SettledNames, WaitingNames } from '../views.ts';
import { merge, moveCastings } from './merge.ts';
import { seen, settleSeen } from './seen.ts';
import { settled, takeBack } from './settled.ts';
import { groupOfText, homeOf, waitingList } from './waiting.ts';

const waiting = needsCollection.handler(async ({ context }): Promise<WaitingNames> => {
  const { names } = await waitingList(context.session);
  return {
    names,
    cars: names.reduce((sum, name) => sum + name.cars, 0),
    sales: names.reduce((sum, name) => sum + name.sales, 0),
  };
});

const needGroup = async (session: Session, text: string) => {
  const group = await groupOfText(session, text);
  if (!group)
    throw refused(
      `"${text}" does not wait to be settled: no car or sale record has that name.`,
      'not-waiting',
    );
  return group;
};

const nameOf = (index: ReferenceIndex, castingId: number): string => {
  const casting = index.castings.get(castingId);
  if (!casting) throw notFound('casting', castingId);
  return casting.name;
};

type Asked = typeof inputs.settleNames._output.settlement;

const settlementOf = (
  asked: Asked,
  group: { text: string; maker: string | null; series: string | null },
): Settlement => {
  if (asked.as === 'casting') {
    const home = homeOf(group);
    return {
      as: 'casting',
      name: asked.name ?? group.text,
      maker: asked.maker ?? home.maker,
      series: asked.series ?? home.series,
    };
  }
  return asked.as === 'release' ? { ...asked, name: asked.name ?? group.text } : asked;
};

const labelOf = (groups: readonly WaitingGroup[], settlement: Settlement, index: ReferenceIndex): string => {
  const [first] = groups;
  const names = groups.length === 1 ? (first?.text ?? '') : `${groups.length} names`;
  switch (settlement.as) {
    case 'casting':
      return groups.length === 1
        ? `Settled ${names} as the casting ${settlement.name}`
        : `Settled ${names} as castings`;
    case 'same':
      return `Settled ${names} as ${nameOf(index, settlement.castingId)}`;
    case 'release':
      return `Settled ${names} as ${groups.length === 1 ? 'a release' : 'releases'} of ${nameOf(index, settlement.castingId)}`;
    case 'not a car':
      return `Settled that ${names} ${groups.length === 1 ? 'is not a car' : 'are not cars'}`;
  }
};

const settle = needsCollection
  .input(inputs.settleNames)
  .handler(async ({ context, input }): Promise<SettledNames> => {
    const { session } = context;
    const groups = new Set<WaitingGroup>();
    for (const text of input.texts) groups.add(await needGroup(session, text));
    const [first] = groups;
    if (!first) throw refused('No name was given.');
    const index = await referenceIndex(session);
    const asked = groups.size === 1 ? input.settlement : { ...input.settlement, name: undefined };
    const done = await session.act(labelOf([...groups], settlementOf(asked, first), index), async trx => {
      const counts = { castingId: null as number | null, cars: 0, sales: 0 };
      for (const group of groups) {
        const settled = await settleNames(trx, group, settlementOf(asked, group), session.at());
        await followOwnSales(trx, settled.carIds);
        counts.castingId ??= settled.castingId;
        counts.cars += settled.carIds.length;
        counts.sales += settled.saleIds.length;
      }
      return counts;
    });
    const { castings } = await referenceIndex(session);
    return {
      name: first.text,
      names: groups.size,
      casting: done.castingId === null ? null : (castings.get(done.castingId)?.name ?? null),
      ...done,
    };
  });

const part = needsCollection.input(inputs.partName).handler(async ({ context, input }) => {
  const { session } = context;
  const group = await needGroup(session, input.text);
  const others = group.texts.map(({ text }) => text);
  if (others.length < 2) throw refused(`"${group.text}" has no other spelling to be separated from.`);
  await session.act(`Separated ${input.text} from ${group.text}`, trx => partNames(trx, input.text, others));
});

const near = needsCollection
  .input(inputs.nearCastings)
  .handler(async ({ context, input }): Promise<NearCasting[]> => {
    const index = await referenceIndex(context.session);
    const found =
      input.text === ''
        ? [...index.castings.keys()]
        : suggestFrom(index, { text: input.text, limit: index.castings.size + 1 })
            .filter(({ kind }) => kind === 'casting')
            .map(({ castingId }) => castingId);
    const key = nameKey(input.name);
    const nearOf = (id: number) =>
      Math.max(
        ...[index.castings.get(id), ...(index.releasesOf.get(id) ?? [])].map(one =>
          nearness(key, nameKey(one?.name ?? '')),
        ),
      );
    return [...new Set(found)]
      .flatMap(id => index.castings.get(id) ?? [])
      .map(casting => ({ casting, near: nearOf(casting.id) }))
      .sort((a, b) => b.near - a.near || (a.casting.name < b.casting.name ? -1 : 1))
      .slice(0, input.limit)
      .map(({ casting }) => ({
        castingId: casting.id,
        name: casting.name,
        series: casting.series,
        maker: casting.maker,
        firstYear: casting.firstYear,
      }));
  });

export const names = {
  waiting,
  settle,
  part,
  near,
  merge,
  moveCastings,
  seen,
  settleSeen,
  settled,
  takeBack,
};
