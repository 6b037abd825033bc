import { type VariationFeature, variationFeatures } from '../../../valuation/words.ts';
import type { Row } from '../content.ts';
import { castingParts } from './casting-parts.ts';
import { colours } from './colours.ts';
import { type BodyType, type CastingPlan, type FeaturePlan, seriesPlans } from './index.ts';
import { type DemoVariation, variationsOf } from './variations.ts';

/** What the rest of the demo asks of a casting. */
export interface DemoCasting {
  id: number;
  seriesId: number;
  plan: CastingPlan;
  body: BodyType;
}

export interface DemoReference {
  maker: Row<'maker'>[];
  series: Row<'series'>[];
  casting: Row<'casting'>[];
  casting_part: Row<'casting_part'>[];
  casting_feature: Row<'casting_feature'>[];
  release: Row<'release'>[];
  variation: Row<'variation'>[];
  colour: Row<'colour'>[];
  castings: DemoCasting[];
  variations: DemoVariation[];
}

const makerName = 'Quillon Toys of Wrenmoor';

/** Two kinds of base: zinc alloy until the last range, plastic on some of its castings. */
const materials = (plan: CastingPlan): string =>
  plan.year >= 1974
    ? 'Zinc alloy body, black plastic base, plastic interior and glazing, plated plastic wheels on steel wire'
    : 'Zinc alloy body and base, plastic interior and glazing, plated plastic wheels on steel wire';

/** Maker, series, castings with their parts and releases, and all variations. */
export const makeReference = (): DemoReference => {
  const reference: DemoReference = {
    maker: [
      {
        id: 1,
        name: makerName,
        country: 'England',
        notes:
          'Made die-cast cars at the Wrenmoor works from 1966 to 1975. Finishing moved in part to Portugal in 1969.',
      },
    ],
    series: [],
    casting: [],
    casting_part: [],
    casting_feature: [],
    release: [],
    variation: [],
    colour: colours.map((colour, i) => ({ id: i + 1, name: colour.name, swatch: colour.swatch })),
    castings: [],
    variations: [],
  };
  for (const plan of seriesPlans) {
    const seriesId = reference.series.length + 1;
    reference.series.push({
      id: seriesId,
      maker_id: 1,
      name: plan.name,
      first_year: plan.firstYear,
      last_year: plan.lastYear,
      notes: plan.notes,
    });
    for (const casting of plan.castings) addCasting(reference, seriesId, casting);
  }
  return reference;
};

const addCasting = (reference: DemoReference, seriesId: number, plan: CastingPlan): void => {
  const id = reference.casting.length + 1;
  reference.castings.push({ id, seriesId, plan, body: plan.body });
  reference.casting.push({
    id,
    series_id: seriesId,
    name: plan.name,
    body_type: plan.body,
    first_year: plan.year,
    length_mm: plan.lengthMm,
    materials: materials(plan),
    markings: `Base: QUILLON TOYS · WRENMOOR · ${plan.name.toUpperCase()} · ${plan.year} · MADE IN ${plan.countries[0]!.toUpperCase()}`,
    notes: plan.notes,
  });
  for (const { part, detail } of castingParts(plan))
    reference.casting_part.push({ id: reference.casting_part.length + 1, casting_id: id, part, detail });

  const releases = [
    { name: plan.name, year: plan.year, changedPart: '', notes: '', features: plan as FeaturePlan },
    ...plan.rereleases.map(one => ({ ...one, features: { ...plan, ...one.changes } as FeaturePlan })),
  ];
  const made: DemoVariation[] = [];
  for (const release of releases) {
    const releaseId = reference.release.length + 1;
    reference.release.push({
      id: releaseId,
      casting_id: id,
      name: release.name,
      year: release.year,
      changed_part: release.changedPart,
      notes: release.notes,
    });
    const first = release.changedPart === '';
    made.push(
      ...variationsOf(plan, release, first).map((one, i) => ({
        ...one,
        id: reference.variations.length + made.length + i + 1,
        castingId: id,
        seriesId,
        releaseId,
      })),
    );
  }
  reference.variations.push(...made);
  for (const one of made) reference.variation.push(variationRow(one));
  for (const feature of variationFeatures)
    for (const value of new Set(made.map(one => one.features[feature])))
      if (value !== '') addFeature(reference, id, feature, value);
};

const addFeature = (
  reference: DemoReference,
  castingId: number,
  feature: VariationFeature,
  value: string,
): void => {
  reference.casting_feature.push({
    id: reference.casting_feature.length + 1,
    casting_id: castingId,
    feature,
    value,
  });
};

const variationRow = (one: DemoVariation): Row<'variation'> => ({
  id: one.id,
  release_id: one.releaseId,
  colour: one.features.colour,
  body_finish: one.features.bodyFinish,
  base_paint: one.features.basePaint,
  rear_end: one.features.rearEnd,
  roof: one.features.roof,
  interior: one.features.interior,
  glazing: one.features.glazing,
  wheels: one.features.wheels,
  accessory: one.features.accessory,
  country: one.features.country,
  rarity: one.rarity,
  factory_specification: one.specification,
  notes: one.notes,
});
