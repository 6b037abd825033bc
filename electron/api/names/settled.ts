import {
  listSettledVariations,
  listSettlements,
  takeBackSettlements,
} from '../../../db/reference/settled-names.ts';
import * as inputs from '../inputs.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import type { SettledList } from '../views.ts';

/** What the owner has said of names: what each is, and which are never one. */
export const settled = needsCollection.handler(async ({ context }): Promise<SettledList> => {
  const index = await referenceIndex(context.session);
  const { settled: rows, parted } = await listSettlements(context.db);
  return {
    settled: rows.map(({ releaseId, ...row }) => {
      const release = releaseId === null ? undefined : index.releases.get(releaseId);
      const castingId = row.castingId ?? release?.castingId ?? null;
      return {
        ...row,
        castingId,
        casting: castingId === null ? null : (index.castings.get(castingId)?.name ?? null),
        release: release ? [release.name, release.year].filter(Boolean).join(' of ') : null,
      };
    }),
    parted,
    variations: (await listSettledVariations(context.db)).map(({ id, castingId, variationId, texts }) => ({
      id,
      castingId,
      casting: index.castings.get(castingId)?.name ?? '',
      told: Object.values(texts).join(', '),
      variation: index.variations.get(variationId)?.label ?? '',
    })),
  };
});

/**
 * Takes back what was settled, as one action: what is read later goes without it, and what is not a car any
 * more waits again.
 */
export const takeBack = needsCollection
  .input(inputs.takeBackNames)
  .handler(async ({ context, input }): Promise<void> => {
    const count = input.settled.length + input.parted.length + input.variations.length;
    if (count === 0) return;
    await context.session.act(
      count === 1 ? 'Took back what was settled of a name' : `Took back what was settled of ${count} names`,
      trx => takeBackSettlements(trx, input),
    );
  });
