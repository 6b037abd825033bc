import { followAll } from '../../../db/records/names/follow-reference.ts';
import { plain } from '../../../db/reference/plain.ts';
import { castingFeatures, colourNames, listCastings, referenceUse } from '../../../db/reference/reference.ts';
import {
  castingDetails,
  listSeries,
  saveCastingDetails,
  saveRelease as saveReleaseRow,
  saveSeries as saveSeriesRow,
  saveVariationDetails,
  variationDetails,
} from '../../../db/reference/reference-details.ts';
import {
  removeCasting as removeCastingRows,
  removeVariation as removeVariationRow,
  saveCasting as saveCastingRow,
  saveColour as saveColourRow,
  saveVariation as saveVariationRow,
} from '../../../db/reference/reference-write.ts';
import { counted } from '../../../valuation/wording/reader.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { CastingPage, CastingRow, ColourView, SeriesRow } from '../views.ts';
import { identifyAmong } from './identify.ts';
import { followOwnSales } from './own-sales.ts';
import { referenceIndex } from './reference-index.ts';
import { castingRow, variationRow } from './reference-rows.ts';
import { suggestFrom } from './suggest.ts';

const castings = needsCollection.handler(async ({ context }): Promise<CastingRow[]> => {
  const index = await referenceIndex(context.session);
  const use = await referenceUse(context.db);
  return [...index.castings.values()].map(casting => castingRow(index, casting, use));
});

const casting = needsCollection
  .input(inputs.byId)
  .handler(async ({ context, input }): Promise<CastingPage> => {
    const index = await referenceIndex(context.session);
    const found = index.castings.get(input.id);
    if (!found) throw notFound('casting', input.id);
    const use = await referenceUse(context.db);
    const known = await castingFeatures(context.db, input.id);
    const ofCasting = index.ofCasting.get(input.id) ?? [];
    const featureValues = variationFeatures
      .map(feature => ({
        feature,
        values: [
          ...new Set([
            ...known.filter(entry => entry.feature === feature).map(entry => entry.value),
            ...ofCasting.map(variation => variation.features[feature]).filter(value => value !== ''),
          ]),
        ],
      }))
      .filter(entry => entry.values.length > 0);
    return {
      ...castingRow(index, found, use),
      makerId: found.makerId,
      lengthMm: found.lengthMm,
      materials: found.materials,
      markings: found.markings,
      notes: found.notes,
      ...(await castingDetails(context.db, input.id)),
      featureValues,
      releaseRows: (index.releasesOf.get(input.id) ?? []).map(release => ({
        id: release.id,
        name: release.name,
        year: release.year,
        changedPart: release.changedPart,
        notes: release.notes,
      })),
      variationRows: ofCasting.map(variation => variationRow(index, variation, use)),
      variationDetails: await variationDetails(context.db, input.id),
    };
  });

const suggest = needsCollection
  .input(inputs.suggest)
  .handler(async ({ context, input }) => suggestFrom(await referenceIndex(context.session), input));

const identify = needsCollection.input(inputs.identify).handler(async ({ context, input }) => {
  const index = await referenceIndex(context.session);
  const use = await referenceUse(context.db);
  const { remaining, open } = identifyAmong(index.ofCasting.get(input.castingId) ?? [], input.features);
  return { remaining: remaining.map(variation => variationRow(index, variation, use)), open };
});

const saveCasting = needsCollection.input(inputs.saveCasting).handler(async ({ context, input }) => {
  const index = await referenceIndex(context.session);
  if (input.id !== undefined && !index.castings.has(input.id)) throw notFound('casting', input.id);
  const label = `${input.id === undefined ? 'Added' : 'Changed'} the casting ${input.name}`;
  const id = await context.session.act(label, async trx => {
    const saved = await saveCastingRow(trx, input);
    await saveCastingDetails(trx, saved, input);
    const { carIds } = await followAll(trx, [saved], context.session.at());
    await followOwnSales(trx, carIds);
    return saved;
  });
  return { id };
});

const saveVariation = needsCollection.input(inputs.saveVariation).handler(async ({ context, input }) => {
  const index = await referenceIndex(context.session);
  const ofCasting = index.castings.get(input.castingId);
  if (!ofCasting) throw notFound('casting', input.castingId);
  if (input.id !== undefined && !index.variations.has(input.id)) throw notFound('variation', input.id);
  const what = input.features.colour || input.releaseName;
  const label = `${input.id === undefined ? 'Added' : 'Changed'} the variation ${what} of ${ofCasting.name}`;
  const id = await context.session.act(label, async trx => {
    const saved = await saveVariationRow(trx, input);
    await saveVariationDetails(trx, saved, input);
    const { carIds } = await followAll(trx, [input.castingId], context.session.at());
    await followOwnSales(trx, carIds);
    return saved;
  });
  return { id };
});

const saveRelease = needsCollection.input(inputs.saveRelease).handler(async ({ context, input }) => {
  const index = await referenceIndex(context.session);
  const found = index.releases.get(input.id);
  if (!found) throw notFound('release', input.id);
  const ofCasting = index.releasesOf.get(found.castingId) ?? [];
  if (
    ofCasting.some(
      one => one.id !== input.id && plain(one.name) === plain(input.name) && one.year === input.year,
    )
  )
    throw refused('This casting has another release of that name and year. Merge the two instead.');
  await context.session.act(`Changed the release ${input.name}`, trx => saveReleaseRow(trx, input));
});

const series = needsCollection.handler(({ context }): Promise<SeriesRow[]> => listSeries(context.db));

const saveSeries = needsCollection.input(inputs.saveSeries).handler(async ({ context, input }) => {
  const found = (await listSeries(context.db)).find(one => one.id === input.id);
  if (!found) throw notFound('series', input.id);
  if (input.firstYear !== null && input.lastYear !== null && input.lastYear < input.firstYear)
    throw refused('The last year is before the first.');
  await context.session.act(`Changed the series ${input.name}`, trx =>
    saveSeriesRow(trx, { ...input, makerId: found.makerId }),
  );
});

const removeVariation = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const index = await referenceIndex(context.session);
  const found = index.variations.get(input.id);
  if (!found) throw notFound('variation', input.id);
  const ofCasting = index.castings.get(found.castingId)?.name ?? '';
  await context.session.act(`Removed the variation ${found.label} of ${ofCasting}`, trx =>
    removeVariationRow(trx, input.id),
  );
});

const removeCasting = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const found = (await listCastings(context.db)).find(one => one.id === input.id);
  if (!found) throw notFound('casting', input.id);
  const use = await referenceUse(context.db);
  const cars = use.castingCars.get(input.id) ?? 0;
  const sales = use.castingSales.get(input.id) ?? 0;
  if (cars + sales > 0)
    throw refused(
      `${found.name} is named by ${counted(cars, 'car')} and ${counted(sales, 'sale record')}. Give them another casting, or remove them, first.`,
    );
  await context.session.act(`Removed the casting ${found.name}`, trx => removeCastingRows(trx, input.id));
});

const colours = needsCollection.handler(async ({ context }): Promise<ColourView[]> => {
  const index = await referenceIndex(context.session);
  const stored = await colourNames(context.db);
  const used = [...index.variations.values()].map(variation => variation.features.colour);
  const names = new Map<string, string>();
  for (const name of [...stored, ...used])
    if (name !== '' && !names.has(name.toLowerCase())) names.set(name.toLowerCase(), name);
  return [...names.values()]
    .sort((a, b) => a.localeCompare(b, 'en'))
    .map(name => ({ name, swatch: index.swatchOf(name) }));
});

const saveColour = needsCollection.input(inputs.saveColour).handler(async ({ context, input }) => {
  await context.session.act(`Chose a swatch for ${input.name}`, trx =>
    saveColourRow(trx, input.name, input.swatch),
  );
});

export const reference = {
  castings,
  casting,
  suggest,
  identify,
  saveCasting,
  saveVariation,
  saveRelease,
  series,
  saveSeries,
  removeVariation,
  removeCasting,
  colours,
  saveColour,
};
