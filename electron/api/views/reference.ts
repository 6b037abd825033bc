/** What the procedures answer about castings and variations. */
import type { SeriesDetails } from '../../../db/reference/reference-details.ts';
import type { BasePaint, PartName, Rarity, VariationFeature } from '../../../valuation/index.ts';
import type { Features } from './shared.ts';

export interface CastingRow {
  id: number;
  maker: string;
  series: string;
  seriesId: number;
  name: string;
  bodyType: string;
  firstYear: number | null;
  releases: number;
  variations: number;
  cars: number;
  saleRecords: number;
}

export interface VariationRow {
  id: number;
  castingId: number;
  casting: string;
  series: string;
  releaseId: number;
  releaseName: string;
  releaseYear: number | null;
  features: Features;
  swatch: string | null;
  rarity: Rarity | null;
  /** One line that names it among its casting's variations: "Ember, rear quarter, twin lamps". */
  label: string;
  /** What of the label is not the colour, for where the colour is shown apart. */
  beyondColour: string;
  factorySpecification: string;
  cars: number;
  saleRecords: number;
}

export interface CastingPage extends CastingRow {
  makerId: number;
  lengthMm: number | null;
  materials: string;
  markings: string;
  notes: string;
  /** How it is put together, and how its axles run; empty where that is not known. */
  assembly: string;
  bearings: '' | 'open' | 'captive';
  parts: { part: PartName; detail: string; lookAt: string }[];
  featureValues: { feature: VariationFeature; values: string[] }[];
  releaseRows: { id: number; name: string; year: number | null; changedPart: string; notes: string }[];
  variationRows: VariationRow[];
  /** What is known of each variation beside its features. */
  variationDetails: { id: number; notes: string; baseWords: string; wheelSizes: string }[];
}

/** A series with its maker. */
export type SeriesRow = SeriesDetails;

/** A type-ahead answer: pick one and the row is identified. */
export interface Suggestion {
  kind: 'casting' | 'variation';
  castingId: number;
  variationId: number | null;
  label: string;
  detail: string;
  swatch: string | null;
  basePaint: BasePaint | '';
}

/** What features are still open for a casting, given those already chosen, and which variations remain. */
export interface Identification {
  remaining: VariationRow[];
  open: { feature: VariationFeature; values: { value: string; variations: number }[] }[];
}
