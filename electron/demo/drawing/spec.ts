import type { BasePaint, FinishState, Grade, PartName, VariationFeature } from '../../../valuation/words.ts';
import type { BodyType } from '../castings/plan.ts';

/** Everything that a drawing of a car needs: the variation's features and how this one has fared. */
export interface CarSpec extends Record<Exclude<VariationFeature, 'colour' | 'basePaint'>, string> {
  casting: string;
  body: BodyType;
  /** Length of the model in millimetres; a longer one is drawn longer. */
  lengthMm: number;
  /** `#rrggbb` of the body's colour. */
  colour: string;
  basePaint: BasePaint;
  year: number;
  /** The year of the tool, as its base says. */
  castYear: number;
  /** C10 … C1; sets the amount of wear. */
  grade: Grade;
  finishState: FinishState;
  missing: PartName[];
  reproduction: PartName[];
  /** Which sheet of paper it was photographed on. */
  paper: number;
  /** Decides where chips and scratches fall. */
  seed: string;
}

export type CarView = 'side' | 'base' | 'rear';

/** One photograph to draw: a view of a car, or the cars of a lot together. */
export type DrawnView = { kind: CarView; car: CarSpec } | { kind: 'lot'; cars: CarSpec[]; seed: string };
