import type { CarSpec } from '../spec.ts';
import { closedCar } from './closed-car.ts';
import { castingMeasures, closedBodies } from './closed-measures.ts';
import type { Shape } from './shape.ts';

export const shapeOf = (spec: CarSpec): Shape => {
  const usual = closedBodies[spec.body] ?? closedBodies['saloon']!;
  return closedCar({ ...usual, ...castingMeasures[spec.casting] }, spec.rearEnd);
};
