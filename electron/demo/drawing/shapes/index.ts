import type { CarSpec } from '../spec.ts';
import { closedCar } from './closed-car.ts';
import { closedBodies } from './closed-measures.ts';
import { bubbleTop, duneCar, openRod, roadster, singleSeater } from './open-cars.ts';
import { roadMeasures } from './road-measures.ts';
import type { Shape } from './shape.ts';
import { workMeasures } from './work-measures.ts';

/** The side view of a casting with its rear end. */
export const shapeOf = ({ body, casting, rearEnd }: CarSpec): Shape => {
  switch (body) {
    case 'roadster':
      return roadster(casting, rearEnd);
    case 'single-seater':
      return singleSeater(casting, rearEnd);
    case 'dune car':
      return duneCar(casting);
    case 'open rod':
      return openRod(casting);
    case 'bubble-top':
      return bubbleTop(rearEnd);
    default:
      return closedCar(
        { ...closedBodies[body]!, ...(roadMeasures[casting] ?? workMeasures[casting]) },
        rearEnd,
      );
  }
};
