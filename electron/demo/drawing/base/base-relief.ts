import { type Point, place, px, rounded } from '../geometry.ts';
import { lettering } from '../lettering.ts';
import { group, line } from '../sheet.ts';
import { mix } from '../surface/colour-mixing.ts';
import { baseTint } from '../surface/finish.ts';
import type { BaseDrawing } from './base-drawing.ts';

/** Small facets of tumbled zinc. */
export const tumble = ({ at, random, half, spec }: BaseDrawing): string =>
  spec.year >= 1974
    ? ''
    : Array.from({ length: 140 }, () => {
        const [x, y] = place(at, [random.between(2, 98), random.between(-half, half)]);
        const angle = random.between(0, Math.PI);
        const r = random.between(2, 9);
        return line(
          `M${px(x)} ${px(y)}l${px(r * Math.cos(angle))} ${px(r * Math.sin(angle))}`,
          random.chance(0.5) ? '#ffffff' : '#000000',
          random.between(0.6, 1.3),
          random.between(0.04, 0.16),
        );
      }).join('');

/** A raised line or shape: light on the side of the lamp, dark on the other. */
const raised = (d: string, wide: number, colour: string, strength = 1): string =>
  group(
    line(d, '#000000', wide, 0.55 * strength),
    `transform="translate(${px(wide * 0.34)} ${px(wide * 0.42)})"`,
  ) +
  group(
    line(d, '#ffffff', wide, 0.75 * strength),
    `transform="translate(${px(-wide * 0.26)} ${px(-wide * 0.32)})"`,
  ) +
  line(d, colour, wide, 0.9);

const metalAt = ({ spec }: BaseDrawing, x: number): string => {
  const bare = spec.year >= 1974 ? '#353638' : '#b9bbbb';
  const tint = baseTint(spec);
  const here =
    spec.basePaint === 'full' ||
    (spec.basePaint === 'front quarter' && x < 27) ||
    (spec.basePaint === 'rear quarter' && x > 73);
  return here ? tint : bare;
};

/** Sump, shaft, exhaust and springs, as a toy's base suggests them. */
export const relief = (drawing: BaseDrawing): string => {
  const { at, shape, half } = drawing;
  const [front, rear] = shape.axles;
  const w = half * 0.62;
  const wide = at.scale * 0.42;
  const box = (x0: number, x1: number, y: number, x: number): string =>
    raised(
      rounded(
        at,
        [
          [x0, y],
          [x1, y],
          [x1, -y],
          [x0, -y],
        ],
        1.2,
      ),
      wide,
      metalAt(drawing, x),
      0.8,
    );
  const strip = (points: Point[]): string =>
    raised(
      points.map((point, i) => `${i === 0 ? 'M' : 'L'}${place(at, point).map(px).join(' ')}`).join(''),
      at.scale * 0.8,
      metalAt(drawing, points[0]![0]),
      0.8,
    );
  return (
    box(4.5, front - 9.4, half * 0.34, 8) +
    box(front + 9.6, rear - 10, w, 50) +
    box(rear + 9.4, 96, half * 0.36, 90) +
    strip([
      [front + 10, w + 2.2],
      [rear - 9, w + 2.2],
    ]) +
    strip([
      [front + 10, -w - 2.2],
      [rear - 9, -w - 2.2],
    ])
  );
};

/** The lettering cast into the base between the axles, as SVG. */
export const text = (drawing: BaseDrawing): string => {
  const { at, spec, shape, half } = drawing;
  const [front, rear] = shape.axles;
  const middle = (front + rear) / 2;
  const [x, y] = place(at, [middle, 0]);
  const room = (rear - front - 22) * at.scale;
  const lines: [text: string, size: number][] = [
    ['QUILLON TOYS', 3],
    [spec.casting, 2.4],
    [`WRENMOOR ${spec.castYear}`, 1.9],
    [`MADE IN ${spec.country}`, 1.9],
  ];
  const scale = Math.min(1, half / 17) * at.scale;
  const total = lines.reduce((sum, [, size]) => sum + size * 1.62, 0) * scale;
  let top = y - total / 2;
  return lines
    .map(([words, size]) => {
      const letters = words.length * 0.95 * size * scale;
      const own = size * scale * Math.min(1, room / letters);
      const d = lettering(words, x, top, own);
      top += size * 1.62 * scale;
      return raised(d, own * 0.17, mix(metalAt(drawing, middle), '#ffffff', 0.12));
    })
    .join('');
};

/** White bloom and grime of a base that lay in the damp. */
export const bloom = ({ at, random, spec, half }: BaseDrawing): string => {
  const count = spec.finishState === 'restored' ? 0 : Math.round(Math.max(0, 7 - spec.grade) * 7);
  return Array.from({ length: count }, () => {
    const [x, y] = place(at, [random.between(3, 97), random.between(-half, half)]);
    const r = random.between(4, 26);
    return `<ellipse cx="${px(x)}" cy="${px(y)}" rx="${px(r)}" ry="${px(r * random.between(0.4, 0.9))}" fill="${random.chance(0.55) ? '#e9e7e0' : '#4e4538'}" fill-opacity="${px(random.between(0.06, 0.2))}"/>`;
  }).join('');
};
