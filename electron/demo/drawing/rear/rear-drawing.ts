import type { Placing } from '../geometry.ts';
import type { Sheet } from '../sheet.ts';
import type { CarSpec } from '../spec.ts';
import type { RearShape } from './rear-surface.ts';

/** What every part of a rear view needs. */
export interface RearDrawing {
  sheet: Sheet;
  spec: CarSpec;
  shape: RearShape;
  at: Placing;
}
