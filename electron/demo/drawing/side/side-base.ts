import { curve, type PathPoint, place, px } from '../geometry.ts';
import { fill, group, line, type Sheet } from '../sheet.ts';
import { archGap } from '../surface/body-surface.ts';
import { deepen, mix } from '../surface/colour-mixing.ts';
import { baseTint, zinc } from '../surface/finish.ts';
import type { SideDrawing } from './side-drawing.ts';

/** Colour of the base along the car: bare metal or plastic, tinted over a quarter or in full. */
export const basePaint = (sheet: Sheet, { spec, at }: SideDrawing, deep = 1): string => {
  const bare = deepen(spec.year >= 1974 ? '#37383a' : spec.grade < 5 ? '#a5a6a3' : '#bcbfbf', deep);
  const tint = deepen(baseTint(spec), deep);
  const [x0] = place(at, [0, 0]);
  const [x1] = place(at, [100, 0]);
  const edge = 0.006;
  const stops = {
    none: [{ at: 0, colour: bare }],
    full: [{ at: 0, colour: tint }],
    'front quarter': [
      { at: 0.27 - edge, colour: tint },
      { at: 0.27 + edge, colour: bare },
    ],
    'rear quarter': [
      { at: 0.73 - edge, colour: bare },
      { at: 0.73 + edge, colour: tint },
    ],
  }[spec.basePaint];
  return sheet.linear(x0, 0, x1, 0, stops);
};

/** The base under the sill, from bumper to bumper, and the dark of the wheel arches. */
export const drawBase = (sheet: Sheet, drawing: SideDrawing): string => {
  const { shape, at, spec } = drawing;
  if (spec.missing.includes('base')) return arches(drawing);
  const { sill } = shape;
  const first = shape.outline[0]!;
  const last = shape.outline.at(-1)!;
  const low = sill - 1.9;
  const profile: PathPoint[] = [
    [first[0] - 0.4, sill + 2.2, 'corner'],
    [first[0] + 0.3, sill - 0.1],
    [first[0] + 3.2, low + 0.5],
    [first[0] + 8, low, 'corner'],
    [last[0] - 8, low, 'corner'],
    [last[0] - 3, low + 0.6],
    [last[0] - 0.2, sill + 0.2],
    [last[0] + 0.5, sill + 2.2, 'corner'],
  ];
  const d = `${curve(at, profile)}Z`;
  const [, y0] = place(at, [0, sill + 0.6]);
  const [, y1] = place(at, [0, low]);
  const form = sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: '#000000', opacity: 0.6 },
    { at: 0.2, colour: '#ffffff', opacity: 0.22 },
    { at: 0.4, colour: '#000000', opacity: 0.08 },
    { at: 1, colour: '#000000', opacity: 0.72 },
  ]);
  return fill(d, basePaint(sheet, drawing)) + fill(d, form) + arches(drawing);
};

/** The dark inside the wheel arches, down to the sill. */
const arches = ({ shape, at }: SideDrawing): string =>
  shape.arches
    ? shape.axles
        .map((x, i) => {
          const reach = shape.radii[i]! + archGap + 0.2;
          const low = shape.sill - 0.2;
          const half = Math.sqrt(Math.max(0, reach * reach - (shape.radii[i]! - low) ** 2));
          const r = px(reach * at.scale);
          const [x0, y0] = place(at, [x - half, low]);
          const [x1] = place(at, [x + half, low]);
          return fill(`M${px(x0)} ${px(y0)}A${r} ${r} 0 1 1 ${px(x1)} ${px(y0)}Z`, '#0b0b0c');
        })
        .join('')
    : '';

/** A bumper that is part of the base: a blade with a bright upper edge. */
export const blade = (
  sheet: Sheet,
  drawing: SideDrawing,
  from: number,
  to: number,
  y: number,
  tall: number,
): string => {
  const { at } = drawing;
  const [x0, y0] = place(at, [from, y + tall]);
  const [x1, y1] = place(at, [to, y]);
  const r = (y1 - y0) / 2;
  const box = `x="${px(x0)}" y="${px(y0)}" width="${px(x1 - x0)}" height="${px(y1 - y0)}" rx="${px(r)}"`;
  const form = sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: '#ffffff', opacity: 0.85 },
    { at: 0.25, colour: '#ffffff', opacity: 0.3 },
    { at: 0.5, colour: '#000000', opacity: 0.12 },
    { at: 0.62, colour: '#000000', opacity: 0.5 },
    { at: 0.85, colour: '#ffffff', opacity: 0.14 },
    { at: 1, colour: '#000000', opacity: 0.6 },
  ]);
  return `<rect ${box} fill="${basePaint(sheet, drawing)}"/><rect ${box} fill="${form}"/><rect ${box} fill="none" stroke="#000000" stroke-opacity="0.45" stroke-width="1"/>`;
};

/** A pipe end seen from its side. */
export const pipe = (sheet: Sheet, drawing: SideDrawing, from: number, to: number, y: number): string => {
  const { at } = drawing;
  const [x0, y0] = place(at, [from, y + 0.65]);
  const [x1, y1] = place(at, [to, y - 0.65]);
  const form = sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: mix(zinc, '#ffffff', 0.7) },
    { at: 0.4, colour: zinc },
    { at: 0.6, colour: deepen(zinc, 0.5) },
    { at: 1, colour: deepen(zinc, 0.75) },
  ]);
  return group(
    `<rect x="${px(x0)}" y="${px(y0)}" width="${px(x1 - x0)}" height="${px(y1 - y0)}" fill="${form}"/><ellipse cx="${px(x1)}" cy="${px((y0 + y1) / 2)}" rx="${px(at.scale * 0.22)}" ry="${px((y1 - y0) / 2)}" fill="#101010"/>` +
      line(`M${px(x1)} ${px(y0)}V${px(y1)}`, '#dddddd', 0.8, 0.4),
  );
};
