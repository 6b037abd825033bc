import type { Random } from '../../random.ts';
import type { Placing } from '../geometry.ts';
import type { Shape } from '../shapes/shape.ts';
import type { CarSpec } from '../spec.ts';

/** What every part of a side view needs. */
export interface SideDrawing {
  spec: CarSpec;
  shape: Shape;
  at: Placing;
  random: Random;
}
