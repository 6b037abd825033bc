import type { Generated } from 'kysely';
import type { BasePaint, PartName, Rarity, VariationFeature } from '../../valuation/words.ts';

interface MakerTable {
  id: Generated<number>;
  name: string;
  country: string | null;
  notes: Generated<string>;
}

interface SeriesTable {
  id: Generated<number>;
  maker_id: number;
  name: string;
  first_year: number | null;
  last_year: number | null;
  notes: Generated<string>;
}

interface CastingTable {
  id: Generated<number>;
  series_id: number;
  name: string;
  body_type: Generated<string>;
  first_year: number | null;
  length_mm: number | null;
  materials: Generated<string>;
  markings: Generated<string>;
  notes: Generated<string>;
  assembly: Generated<string>;
  bearings: Generated<'' | 'open' | 'captive'>;
}

interface CastingPartTable {
  id: Generated<number>;
  casting_id: number;
  part: PartName;
  detail: Generated<string>;
  position: Generated<number>;
  look_at: Generated<string>;
}

interface CastingFeatureTable {
  id: Generated<number>;
  casting_id: number;
  feature: VariationFeature;
  value: string;
}

interface ReleaseTable {
  id: Generated<number>;
  casting_id: number;
  name: string;
  year: number | null;
  changed_part: Generated<string>;
  notes: Generated<string>;
}

interface VariationTable {
  id: Generated<number>;
  release_id: number;
  colour: Generated<string>;
  body_finish: Generated<string>;
  base_paint: Generated<BasePaint | ''>;
  rear_end: Generated<string>;
  roof: Generated<string>;
  interior: Generated<string>;
  glazing: Generated<string>;
  wheels: Generated<string>;
  accessory: Generated<string>;
  country: Generated<string>;
  rarity: Rarity | null;
  factory_specification: Generated<string>;
  notes: Generated<string>;
  base_words: Generated<string>;
  wheel_sizes: Generated<string>;
}

interface ColourTable {
  id: Generated<number>;
  name: string;
  swatch: string;
}

interface SettledNameTable {
  id: Generated<number>;
  text: string;
  means: 'casting' | 'release' | 'not a car';
  casting_id: number | null;
  release_id: number | null;
  settled_at: string;
}

interface PartedNamesTable {
  id: Generated<number>;
  one: string;
  other: string;
}

interface SettledVariationTable {
  id: Generated<number>;
  casting_id: number;
  variation_id: number;
  seen: string;
  settled_at: string;
}

export interface ReferenceTables {
  maker: MakerTable;
  series: SeriesTable;
  casting: CastingTable;
  casting_part: CastingPartTable;
  casting_feature: CastingFeatureTable;
  release: ReleaseTable;
  variation: VariationTable;
  colour: ColourTable;
  settled_name: SettledNameTable;
  parted_names: PartedNamesTable;
  settled_variation: SettledVariationTable;
}
