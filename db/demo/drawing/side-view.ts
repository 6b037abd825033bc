import { randomFrom } from '../random.ts';
import { finishOf } from './finish.ts';
import type { Placing } from './geometry.ts';
import { place } from './geometry.ts';
import { shapeOf } from './shapes/index.ts';
import { group, type Sheet } from './sheet.ts';
import { bodyParts } from './side-body.ts';
import type { CarSpec } from './spec.ts';
import { drawWheel } from './wheels.ts';

export const drawSide = (sheet: Sheet, spec: CarSpec, at: Placing): string => {
  const shape = shapeOf(spec);
  const finish = finishOf(spec);
  const random = randomFrom(`side ${spec.seed}`);
  const wheels = shape.axles.map((x, i) => {
    const r = shape.radii[i]!;
    const [cx, cy] = place(at, [x, r]);
    return drawWheel(sheet, {
      x: cx,
      y: cy,
      r: r * at.scale,
      kind: spec.wheels,
      bright: spec.grade / 10,
      reproduction: spec.reproduction.includes('wheels'),
      turn: random.between(0, 6),
    });
  });
  return group(bodyParts(sheet, { spec, shape, finish, at, random }) + wheels.join(''));
};
