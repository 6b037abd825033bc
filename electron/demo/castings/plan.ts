import type { BasePaint } from '../../../valuation/words.ts';

/** The bodies that the invented maker built. */
export const bodyTypes = [
  'saloon',
  'coupé',
  'fastback',
  'roadster',
  'estate',
  'pickup',
  'van',
  'dune car',
  'wedge prototype',
  'single-seater',
  'open rod',
  'bubble-top',
] as const;
export type BodyType = (typeof bodyTypes)[number];

/** The values that each feature of a casting was made with; the first of each list is the usual one. */
export interface FeaturePlan {
  colours: string[];
  basePaints: BasePaint[];
  rearEnds: string[];
  roofs: string[];
  interiors: string[];
  glazings: string[];
  wheels: string[];
  accessories: string[];
  countries: string[];
}

/**
 * A later sale of the same tooling under another name, with the part that was changed and what that changes.
 */
export interface ReleasePlan {
  name: string;
  year: number;
  changedPart: string;
  notes: string;
  changes: Partial<FeaturePlan>;
}

export interface CastingPlan extends FeaturePlan {
  name: string;
  body: BodyType;
  year: number;
  lengthMm: number;
  notes: string;
  rereleases: ReleasePlan[];
}

export interface SeriesPlan {
  name: string;
  firstYear: number;
  lastYear: number;
  notes: string;
  castings: CastingPlan[];
}

const usual: FeaturePlan = {
  colours: [],
  basePaints: ['none', 'front quarter', 'rear quarter'],
  rearEnds: [''],
  roofs: ['matching'],
  interiors: ['ivory', 'black'],
  glazings: ['clear', 'pale blue'],
  wheels: ['six-hole disc', 'dished disc'],
  accessories: [''],
  countries: ['England', 'Portugal'],
};

/** A casting with the usual values where none are given. */
export const casting = (
  given: Partial<FeaturePlan> &
    Pick<CastingPlan, 'name' | 'body' | 'year' | 'lengthMm' | 'colours'> & {
      notes?: string;
      rereleases?: ReleasePlan[];
    },
): CastingPlan => ({ ...usual, notes: '', rereleases: [], ...given });
