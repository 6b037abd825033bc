import { randomFrom } from '../../random.ts';
import { type Placing, place, px } from '../geometry.ts';
import { shapeOf } from '../shapes/index.ts';
import { group, type Sheet } from '../sheet.ts';
import type { CarSpec } from '../spec.ts';
import { drawAxleEnd, drawFarWheel, drawWheel } from '../wheels.ts';
import { drawAccessory } from './side-accessories.ts';
import { drawBody } from './side-body.ts';
import { drawFittings } from './side-fittings.ts';

/** A car from its near side, standing on the ground of `at`. */
export const drawSide = (sheet: Sheet, spec: CarSpec, at: Placing): string => {
  const shape = shapeOf(spec);
  const random = randomFrom(`side ${spec.seed}`);
  const drawing = { spec, shape, at, random };
  const wheels = shape.axles.map((x, i) => {
    const r = shape.radii[i]!;
    const [cx, cy] = place(at, [x, r]);
    if (i === 1 && spec.missing.includes('wheels')) return drawAxleEnd(sheet, at, cx, cy, r * at.scale);
    const wheel = drawWheel(sheet, {
      x: cx,
      y: cy,
      r: r * at.scale,
      kind: spec.wheels,
      bright: spec.grade / 10,
      reproduction: spec.reproduction.includes('wheels'),
      turn: random.between(0, 6),
    });
    // A bent axle lets a wheel lean.
    const lean = spec.grade < 4 && spec.finishState !== 'restored' ? 0.965 : 1;
    return lean === 1
      ? wheel
      : group(wheel, `transform="translate(${px(cx * (1 - lean) + (i === 0 ? 3 : -2))} 0) scale(${lean} 1)"`);
  });
  const far = shape.axles.map((x, i) => drawFarWheel(sheet, at, x + 1.6, shape.radii[i]!)).join('');
  return group(
    far +
      drawBody(sheet, drawing) +
      drawFittings(sheet, drawing) +
      drawAccessory(sheet, drawing) +
      wheels.join(''),
  );
};
