/** Pieces that several answers share. */
import type { Deal } from '../../../db/photos/deal-photos.ts';
import type { IsoDate, Range, VariationFeature, Worth } from '../../../valuation/index.ts';

/** What the owner has already, on which a worth can mainly rest. */
export type OwnRest = 'paid' | 'believed';

/** The three worths of a car, as the worth strip draws them. */
export interface Worths {
  asFound: Worth | null;
  restored: Worth | null;
  originalFinish: Worth | null;
  /** Cost of the plan behind `restored`, for its net bar; null without a plan. */
  cost: Range | null;
  /** What they mainly rest on, where that is no sale records. */
  restsOn?: OwnRest;
}

/** Photographs are read by their hash through `photos.read`. */
export interface PhotoView {
  id: number;
  sha256: string;
  width: number;
  height: number;
  view: string;
  caption: string;
  state: string;
  takenOn: IsoDate | null;
}

/** A file that was not taken, and why, in a sentence. */
export interface RefusedFile {
  name: string;
  reason: string;
}

/** What became of files that were given as photographs. */
export interface AddedPhotos {
  added: PhotoView[];
  refused: RefusedFile[];
}

/** A photograph of a batch, and the car of the lot that it may show; nothing of it is attached yet. */
export interface DealtPhoto {
  sha256: string;
  name: string;
  takenAt: string | null;
  carId: number | null;
  doubtful: boolean;
  reason: Deal['reason'];
}

export interface DealingProposal {
  photos: DealtPhoto[];
  refused: RefusedFile[];
}

export interface ColourView {
  name: string;
  /** `#rrggbb`, or null where the owner has chosen none yet. */
  swatch: string | null;
}

/** What tells a variation apart. Empty strings mean "does not apply or not recorded". */
export type Features = Record<VariationFeature, string>;
