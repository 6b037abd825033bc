import type { Random } from '../../random.ts';
import type { Placing } from '../geometry.ts';
import type { Shape } from '../shapes/shape.ts';
import type { Sheet } from '../sheet.ts';
import type { CarSpec } from '../spec.ts';

/** What every part of the view from below needs. */
export interface BaseDrawing {
  sheet: Sheet;
  spec: CarSpec;
  shape: Shape;
  /** `ground` is the line along the middle of the car. */
  at: Placing;
  random: Random;
  /** Half the width of body and base, and how far out the wheels stand. */
  half: number;
  wheels: number;
}

/** Bodies narrower than the track of their wheels. */
export const narrow = ['single-seater', 'open rod'];
