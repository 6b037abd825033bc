import { mergeCastings, mergeReleases } from '../../../db/records/names/merge-castings.ts';
import { mergeVariations } from '../../../db/records/names/merge-variations.ts';
import { moveCastings as moveCastingRows } from '../../../db/reference/reference-write.ts';
import * as inputs from '../inputs.ts';
import { followOwnSales } from '../reference/own-sales.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';

type Asked = typeof inputs.mergeReference._output;

/** What the two are called, once it is sure that they can be one. */
const namesOf = (index: ReferenceIndex, { what, into, from }: Asked): { into: string; from: string } => {
  if (into === from) throw refused(`A ${what} cannot be merged with itself.`);
  if (what === 'casting') {
    const name = (id: number) => {
      const found = index.castings.get(id);
      if (!found) throw notFound(what, id);
      return found.name;
    };
    return { into: name(into), from: name(from) };
  }
  const all = what === 'release' ? index.releases : index.variations;
  const found = (id: number) => {
    const one = all.get(id);
    if (!one) throw notFound(what, id);
    return one;
  };
  if (found(into).castingId !== found(from).castingId)
    throw refused(`Those ${what}s belong to two castings. Merge the castings first.`);
  const name = (id: number) => {
    const one = found(id);
    return 'label' in one ? one.label : `${one.name}${one.year === null ? '' : ` of ${one.year}`}`;
  };
  return { into: name(into), from: name(from) };
};

/** Makes two castings, releases or variations one, with everything that hangs on them, as one action. */
export const merge = needsCollection
  .input(inputs.mergeReference)
  .handler(async ({ context, input }): Promise<void> => {
    const { session } = context;
    const names = namesOf(await referenceIndex(session), input);
    await session.act(`Merged ${names.from} into ${names.into}`, async trx => {
      const at = session.at();
      if (input.what === 'casting') {
        const followed = await mergeCastings(trx, input, at);
        await followOwnSales(trx, followed.carIds);
      } else if (input.what === 'release') await mergeReleases(trx, input, at);
      else await mergeVariations(trx, input, at);
    });
  });

/** Puts castings into one series of one maker, as one action. */
export const moveCastings = needsCollection
  .input(inputs.moveCastings)
  .handler(async ({ context, input }): Promise<void> => {
    const index = await referenceIndex(context.session);
    const gone = input.ids.find(id => !index.castings.has(id));
    if (gone !== undefined) throw notFound('casting', gone);
    const [first] = input.ids;
    const what =
      input.ids.length === 1 ? (index.castings.get(first ?? 0)?.name ?? '') : `${input.ids.length} castings`;
    await context.session.act(`Put ${what} into ${input.series} by ${input.maker}`, async trx => {
      const taken = await moveCastingRows(trx, input);
      if (taken.length > 0)
        throw refused(
          `${input.series} by ${input.maker} would have two castings named ${taken.join(', ')}. Merge them, or change a name, first.`,
        );
    });
  });
