import type { CastingPage, CastingRow, VariationRow } from '../../../../electron/api/views.ts';
import { type Rarity, type VariationFeature, variationFeatures } from '../../../../valuation/words.ts';
import type { Choice } from '../../../components/inputs/choices.ts';

/** What the form of a casting holds; new without an id. */
export interface CastingDraft
  extends Pick<
    CastingPage,
    | (
        | 'maker'
        | 'series'
        | 'name'
        | 'bodyType'
        | 'firstYear'
        | 'lengthMm'
        | 'materials'
        | 'markings'
        | 'notes'
      )
    | ('assembly' | 'bearings' | 'parts')
  > {
  id?: number;
  /** Those of the features whose values were changed. */
  featureValues: CastingPage['featureValues'];
}

/** The casting as it stands; or a new one, of the maker and series that most castings have. */
export const castingDraft = (casting: CastingPage | null, castings: readonly CastingRow[]): CastingDraft => {
  if (casting) {
    const { id, maker, series, name, bodyType, firstYear, lengthMm, materials, markings, notes } = casting;
    const { assembly, bearings, parts } = casting;
    return {
      ...{ id, maker, series, name, bodyType, firstYear, lengthMm, materials, markings, notes },
      ...{ assembly, bearings, parts, featureValues: [] },
    };
  }
  const last = castings.at(-1);
  return {
    maker: last?.maker ?? '',
    series: last?.series ?? '',
    name: '',
    bodyType: 'saloon',
    firstYear: null,
    lengthMm: null,
    materials: '',
    markings: '',
    notes: '',
    assembly: '',
    bearings: '',
    parts: [],
    featureValues: [],
  };
};

/** What the form of a variation holds; new without an id. */
export interface VariationDraft {
  id?: number;
  castingId: number;
  releaseName: string;
  releaseYear: number | null;
  features: Record<VariationFeature, string>;
  rarity: Rarity | null;
  factorySpecification: string;
  notes: string;
  baseWords: string;
  wheelSizes: string;
}

const noFeatures = (): Record<VariationFeature, string> =>
  Object.fromEntries(variationFeatures.map(feature => [feature, ''])) as Record<VariationFeature, string>;

/** The variation as it stands; or a new one of the casting's first release. */
export const variationDraft = (casting: CastingPage, variation: VariationRow | null): VariationDraft => {
  const castingId = casting.id;
  if (variation) {
    const { id, releaseName, releaseYear, features, rarity, factorySpecification } = variation;
    const known = casting.variationDetails.find(one => one.id === id);
    const details = {
      notes: known?.notes ?? '',
      baseWords: known?.baseWords ?? '',
      wheelSizes: known?.wheelSizes ?? '',
    };
    return { id, castingId, releaseName, releaseYear, features, rarity, factorySpecification, ...details };
  }
  const release = casting.releaseRows[0];
  return {
    castingId,
    releaseName: release?.name ?? casting.name,
    releaseYear: release ? release.year : casting.firstYear,
    features: noFeatures(),
    rarity: null,
    factorySpecification: '',
    notes: '',
    baseWords: '',
    wheelSizes: '',
  };
};

/** Each different text once, as choices in order. */
export const choicesOf = (texts: readonly string[]): Choice[] =>
  [...new Set(texts.filter(Boolean))]
    .sort((a, b) => a.localeCompare(b))
    .map(value => ({ value, label: value }));
