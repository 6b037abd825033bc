import { inventoryNumbers } from '../../../db/records/cars/cars.ts';
import { type SeenVariation, seenVariations } from '../../../db/records/names/seen-variations.ts';
import { addSeenVariations, sameAsVariation, wordForColour } from '../../../db/records/names/settle-seen.ts';
import { nearestKnown } from '../../../valuation/reading/names/group-names.ts';
import { featureNames } from '../../../valuation/wording/cars/feature-names.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import * as inputs from '../inputs.ts';
import { followOwnSales } from '../reference/own-sales.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import { memo } from '../session/memo.ts';
import type { SeenVariationRow, SettledSeen } from '../views.ts';

const seenGroups = memo(({ db }) => seenVariations(db));

const rowOf = (
  index: ReferenceIndex,
  seen: SeenVariation,
  numbers: Map<number, string>,
): SeenVariationRow => {
  const { features, castingId } = seen;
  const names = featureNames(plainLocale);
  const colour = features.colour ?? '';
  const colours = [...new Set((index.ofCasting.get(castingId) ?? []).map(one => one.features.colour))];
  return {
    key: seen.key,
    castingId,
    casting: index.castings.get(castingId)?.name ?? '',
    colour,
    swatch: index.swatchOf(colour),
    told: variationFeatures
      .flatMap(feature =>
        feature === 'colour' || !features[feature]
          ? []
          : [`${names[feature].toLowerCase()} ${features[feature]}`],
      )
      .join(', '),
    release: [seen.releaseName, seen.releaseYear].filter(Boolean).join(' '),
    cars: seen.carIds.length,
    sales: seen.saleIds.length,
    lesser: seen.lesserCarIds.length + seen.lesserSaleIds.length,
    examples: seen.carIds.slice(0, 4).flatMap(id => numbers.get(id) ?? []),
    nearColour:
      nearestKnown(
        [colour],
        colours.filter(known => known !== colour),
      ).get(colour) ?? null,
  };
};

/** The variations that were seen and that the reference lacks. */
export const seen = needsCollection.handler(async ({ context }): Promise<SeenVariationRow[]> => {
  const groups = await seenGroups(context.session);
  const index = await referenceIndex(context.session);
  const numbers = await inventoryNumbers(
    context.db,
    groups.flatMap(one => one.carIds.slice(0, 4)),
  );
  return groups.map(one => rowOf(index, one, numbers));
});

const nameOf = (index: ReferenceIndex, groups: readonly SeenVariation[]): string => {
  const [first] = groups;
  if (!first || groups.length > 1) return `${groups.length} variations`;
  return `${first.features.colour || 'a variation'} of ${index.castings.get(first.castingId)?.name ?? ''}`;
};

/** Settles variations that were seen, as one action; their cars and sale records follow. */
export const settleSeen = needsCollection
  .input(inputs.settleSeen)
  .handler(async ({ context, input }): Promise<SettledSeen> => {
    const { session } = context;
    const index = await referenceIndex(session);
    const wanted = new Set(input.keys);
    const groups = (await seenGroups(session)).filter(one => wanted.has(one.key));
    if (groups.length < wanted.size)
      throw refused(
        'That variation does not wait any more: no car or sale record is still open so.',
        'not-waiting',
      );
    const { settlement } = input;
    const what = nameOf(index, groups);
    const work = (): [string, Parameters<typeof session.act<{ carIds: number[]; saleIds: number[] }>>[1]] => {
      switch (settlement.as) {
        case 'variation':
          return [`Added ${what} as seen`, trx => addSeenVariations(trx, groups, session.at())];
        case 'same': {
          const variation = index.variations.get(settlement.variationId);
          if (!variation) throw notFound('variation', settlement.variationId);
          if (groups.some(one => one.castingId !== variation.castingId))
            throw refused('That variation belongs to another casting.');
          return [
            `Settled ${what} as ${variation.label}`,
            trx => sameAsVariation(trx, groups, variation.id, session.at()),
          ];
        }
        case 'word': {
          const text = groups[0]?.features.colour;
          if (!text || groups.some(one => one.features.colour?.toLowerCase() !== text.toLowerCase()))
            throw refused('Say what one word for a finish means at a time.');
          return [
            `Said that ${text} means ${settlement.colour}`,
            trx => wordForColour(trx, { text, colour: settlement.colour }, session.at()),
          ];
        }
      }
    };
    const [label, write] = work();
    const followed = await session.act(label, async trx => {
      const done = await write(trx);
      await followOwnSales(trx, done.carIds);
      return done;
    });
    return { cars: new Set(followed.carIds).size, sales: new Set(followed.saleIds).size };
  });
