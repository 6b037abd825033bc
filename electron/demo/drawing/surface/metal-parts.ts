import { curve, type PathPoint, type Placing, type Point, place, px } from '../geometry.ts';
import { fill, line, type Sheet } from '../sheet.ts';
import { deepen, mix } from './colour-mixing.ts';
import { zinc } from './finish.ts';

/** Bright metal shaded from its upper to its lower edge, both in pixels. */
export const brightMetal = (sheet: Sheet, y0: number, y1: number, dull = 0): string => {
  const worn = (colour: string) => mix(colour, '#8d8a83', dull);
  return sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: worn('#f6f7f7') },
    { at: 0.3, colour: worn('#d2d6d8') },
    { at: 0.52, colour: worn('#7d8488') },
    { at: 0.6, colour: worn('#50565a') },
    { at: 0.82, colour: worn('#c9c6be') },
    { at: 1, colour: worn('#85878a') },
  ]);
};

/** A box of metal in hundredths of the length. */
export const box = (
  sheet: Sheet,
  at: Placing,
  from: Point,
  to: Point,
  paint?: string,
  round = 0.3,
): string => {
  const [x0, y0] = place(at, [from[0], to[1]]);
  const [x1, y1] = place(at, [to[0], from[1]]);
  const shape = `x="${px(x0)}" y="${px(y0)}" width="${px(x1 - x0)}" height="${px(y1 - y0)}" rx="${px(round * at.scale)}"`;
  return `<rect ${shape} fill="${paint ?? brightMetal(sheet, y0, y1)}"/><rect ${shape} fill="none" stroke="#000000" stroke-opacity="0.35" stroke-width="1"/>`;
};

/** A bent tube: dark edge, metal, a line of light. */
export const tube = (at: Placing, points: readonly PathPoint[], wide: number, colour = zinc): string => {
  const d = curve(at, points);
  const lifted = curve(
    at,
    points.map(([x, y, corner]): PathPoint => [x - wide * 0.12, y + wide * 0.18, corner]),
  );
  return (
    line(d, deepen(colour, 0.3), wide * at.scale, 1) +
    line(d, colour, wide * at.scale * 0.74, 1) +
    line(lifted, mix(colour, '#ffffff', 0.85), wide * at.scale * 0.26, 0.9)
  );
};

/** A flat shape in one colour with light from above. */
export const slab = (
  sheet: Sheet,
  at: Placing,
  points: readonly PathPoint[],
  colour: string,
  bright = 0.25,
): string => {
  const d = `${curve(at, [...points, points[0]!])}Z`;
  const ys = points.map(([, y]) => y);
  const [, y0] = place(at, [0, Math.max(...ys)]);
  const [, y1] = place(at, [0, Math.min(...ys)]);
  const form = sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: '#ffffff', opacity: bright + 0.25 },
    { at: 0.22, colour: '#ffffff', opacity: bright * 0.3 },
    { at: 0.6, colour: '#000000', opacity: 0.08 },
    { at: 1, colour: '#000000', opacity: 0.5 },
  ]);
  return fill(d, colour) + fill(d, form) + line(d, '#000000', 1, 0.35);
};

/** An engine block with pots and pipes, standing free. */
export const engine = (sheet: Sheet, at: Placing, [x, y]: Point, wide: number, tall: number): string => {
  const block = box(sheet, at, [x, y], [x + wide, y + tall * 0.56], undefined, 0.6);
  const fins = Array.from({ length: 6 }, (_, i) => {
    const fx = x + wide * (0.12 + i * 0.15);
    const [px0, py0] = place(at, [fx, y + tall * 0.5]);
    const [, py1] = place(at, [fx, y + tall * 0.06]);
    return line(`M${px(px0)} ${px(py0)}V${px(py1)}`, '#1a1b1c', at.scale * 0.3, 0.55);
  }).join('');
  const pots = [0.1, 0.4, 0.7]
    .map(t => {
      const px0 = x + wide * t;
      return (
        box(sheet, at, [px0, y + tall * 0.54], [px0 + wide * 0.2, y + tall * 0.86], undefined, 0.2) +
        box(sheet, at, [px0 - wide * 0.02, y + tall * 0.84], [px0 + wide * 0.22, y + tall], undefined, 0.35)
      );
    })
    .join('');
  return block + fins + pots;
};
