import type { Grade, Originality, PartName } from '../words.ts';

/** A part of a car as it stands. */
export interface PartState {
  part: PartName;
  grade: Grade | null;
  originality: Originality;
}
