import type { Random } from '../random.ts';
import { deepen, mix, shade } from './colour-mixing.ts';
import type { Finish } from './finish.ts';
import { glazingTints, interiorColours, roofColour, zinc } from './finish.ts';
import { closed, curve, heightAt, type PathPoint, type Placing, place, px, rounded } from './geometry.ts';
import type { Shape } from './shapes/shape.ts';
import { fill, group, line, type Sheet } from './sheet.ts';
import type { CarSpec } from './spec.ts';

export interface SideDrawing {
  spec: CarSpec;
  shape: Shape;
  finish: Finish;
  at: Placing;
  random: Random;
}

const archGap = 1.25;

/** The outline closed along the sill, with the wheel arches cut out. */
export const bodyPath = ({ shape, at }: SideDrawing): string => {
  const { outline, sill, axles, radii, arches } = shape;
  const write = (x: number, y: number) => place(at, [x, y]).map(px).join(' ');
  let d = curve(at, outline);
  const last = outline.at(-1)!;
  d += `L${write(last[0] - 0.6, sill + 0.5)}`;
  if (arches)
    for (const i of [1, 0]) {
      const r = radii[i]! + archGap;
      const half = Math.sqrt(Math.max(0, r * r - (radii[i]! - sill) ** 2));
      const radius = px(r * at.scale);
      d += `L${write(axles[i]! + half, sill)}A${radius} ${radius} 0 1 0 ${write(axles[i]! - half, sill)}`;
    }
  const first = outline[0]!;
  d += `L${write(first[0] + 0.6, sill + 0.5)}Z`;
  return d;
};

export const bodyParts = (sheet: Sheet, drawing: SideDrawing): string => {
  const { shape, at, finish } = drawing;
  const d = bodyPath(drawing);
  const clip = sheet.clip(d);
  const y = (units: number) => place(at, [0, units])[1];
  const beltTop = Math.max(...shape.belt.map(([, height]) => height));
  const flank = sheet.linear(0, y(beltTop), 0, y(shape.sill), finish.flank);
  const upper = upperPath(drawing);
  const roofTop = shape.roof ? Math.max(...shape.roof.map(([, height]) => height)) : beltTop + 2;
  const cabin = sheet.linear(0, y(roofTop), 0, y(beltTop - 1.5), finish.cabin);
  return (
    underside(sheet, drawing) +
    fill(d, flank) +
    group(fill(upper, cabin) + shine(sheet, drawing) + ends(sheet, drawing), `clip-path="${clip}"`) +
    roofPaint(sheet, drawing, clip) +
    glass(sheet, drawing) +
    seams(drawing) +
    rims(sheet, drawing, d, clip)
  );
};

/** Everything above the belt. */
const upperPath = ({ shape, at }: SideDrawing): string => {
  const first = shape.belt[0]!;
  const last = shape.belt.at(-1)!;
  return `${curve(at, [[first[0] - 3, first[1]], ...shape.belt, [last[0] + 3, last[1]]])}L${place(at, [104, 60]).map(px).join(' ')}L${place(at, [-4, 60]).map(px).join(' ')}Z`;
};

/** Softbox along the shoulder, the dark of the room below it, the table's light on the lower flank. */
const shine = (sheet: Sheet, { shape, at, finish }: SideDrawing): string => {
  const shifted = (down: number, points = shape.belt): PathPoint[] => points.map(([x, yy]) => [x, yy - down]);
  const band = (from: number, to: number): string =>
    `${curve(at, shifted(from))}${curve(at, shifted(to).reverse(), true)}Z`;
  const [x0] = place(at, [0, 0]);
  const [x1] = place(at, [100, 0]);
  const across = (opacity: number) =>
    sheet.linear(x0, 0, x1, 0, [
      { at: 0, colour: '#ffffff', opacity: 0 },
      { at: 0.07, colour: '#ffffff', opacity: opacity * 0.75 },
      { at: 0.3, colour: '#ffffff', opacity },
      { at: 0.62, colour: '#ffffff', opacity: opacity * 0.55 },
      { at: 0.86, colour: '#ffffff', opacity: opacity * 0.9 },
      { at: 1, colour: '#ffffff', opacity: 0 },
    ]);
  const g = finish.gloss;
  return (
    fill(band(-0.1, 1.9), across(0.34 * g)) +
    fill(band(0.35, 1.15), across(0.75 * g * g)) +
    fill(
      band(shape.crease.length ? 3.3 : 3, 4.2),
      sheet.linear(x0, 0, x1, 0, [
        { at: 0, colour: finish.lit, opacity: 0 },
        { at: 0.3, colour: finish.lit, opacity: 0.5 * g },
        { at: 0.7, colour: finish.lit, opacity: 0.28 * g },
        { at: 1, colour: finish.lit, opacity: 0 },
      ]),
    ) +
    line(curve(at, shape.crease), finish.dark, at.scale * 0.16, 0.55) +
    line(curve(at, shifted(-0.18, shape.crease)), '#ffffff', at.scale * 0.13, 0.5 * g)
  );
};

/** Nose and tail curve away from the light. */
const ends = (sheet: Sheet, { at, finish }: SideDrawing): string => {
  const [x0, y0] = place(at, [-1, 60]);
  const [x1, y1] = place(at, [101, 0]);
  const paint = sheet.linear(x0, 0, x1, 0, [
    { at: 0, colour: finish.dark, opacity: 0.85 },
    { at: 0.035, colour: finish.dark, opacity: 0.4 },
    { at: 0.1, colour: finish.dark, opacity: 0 },
    { at: 0.9, colour: finish.dark, opacity: 0 },
    { at: 0.965, colour: finish.dark, opacity: 0.45 },
    { at: 1, colour: finish.dark, opacity: 0.9 },
  ]);
  return fill(`M${px(x0)} ${px(y0)}H${px(x1)}V${px(y1)}H${px(x0)}Z`, paint);
};

const roofPaint = (sheet: Sheet, { shape, at, spec, finish }: SideDrawing, clip: string): string => {
  const colour = roofColour(spec.roof);
  if (!shape.roof || !colour || spec.finishState === 'stripped') return '';
  const foot = Math.min(shape.roof[0]![1], shape.roof.at(-1)![1]) + 3.2;
  const points: PathPoint[] = shape.roof.map(([x, y, corner]) => [x, y + 1.5, corner]);
  const [, top] = place(at, [0, Math.max(...shape.roof.map(([, y]) => y))]);
  const [, bottom] = place(at, [0, foot]);
  const paint = sheet.linear(0, top, 0, bottom, [
    { at: 0, colour: shade(colour, 0.2, 0.6) },
    { at: 0.2, colour: shade(colour, 0.05) },
    { at: 1, colour: deepen(colour, 0.8) },
  ]);
  const [x0, y0] = place(at, [0, 60]);
  const [x1] = place(at, [100, 0]);
  const clipAbove = sheet.clip(`M${px(x0)} ${px(y0)}H${px(x1)}V${px(bottom)}H${px(x0)}Z`);
  return group(
    group(fill(`${curve(at, points)}Z`, paint), `clip-path="${clip}"`),
    `clip-path="${clipAbove}" data-gloss="${px(finish.gloss)}"`,
  );
};

const glass = (sheet: Sheet, { shape, at, spec }: SideDrawing): string => {
  if (shape.windows.length === 0) return '';
  const d = shape.windows.map(points => rounded(at, points, 1.1)).join('');
  const clip = sheet.clip(d);
  const ys = shape.windows.flat().map(([, y]) => y);
  const [, top] = place(at, [0, Math.max(...ys)]);
  const [, bottom] = place(at, [0, Math.min(...ys)]);
  const gone = spec.missing.includes('glazing');
  const tint = glazingTints[spec.glazing] ?? glazingTints['clear']!;
  const behind = sheet.linear(0, top, 0, bottom, [
    { at: 0, colour: '#3a3834' },
    { at: 0.28, colour: '#8e8a82' },
    { at: 0.75, colour: '#a7a299' },
    { at: 1, colour: '#55524d' },
  ]);
  const seat = interiorColours[spec.interior] ?? '#333333';
  const inside = spec.missing.includes('interior') ? '' : seats(sheet, shape, at, seat);
  const reflection = sheet.linear(0, top, 0, bottom, [
    { at: 0, colour: '#ffffff', opacity: 0.5 },
    { at: 0.35, colour: '#ffffff', opacity: 0.12 },
    { at: 0.5, colour: '#ffffff', opacity: 0 },
    { at: 1, colour: '#ffffff', opacity: 0.06 },
  ]);
  const streak = shape.windows
    .map(points => {
      const xs = points.map(([x]) => x);
      const from = Math.min(...xs) + 3;
      const write = (x: number, y: number) => `${px(place(at, [x, 0])[0])} ${px(y)}`;
      return `M${write(from + 6, top)}L${write(from + 11, top)}L${write(from + 4.5, bottom)}L${write(from - 0.5, bottom)}Z`;
    })
    .join('');
  return (
    group(
      fill(d, behind) +
        inside +
        (gone
          ? ''
          : fill(d, tint.colour, tint.depth + 0.12) + fill(d, reflection) + fill(streak, '#ffffff', 0.16)),
      `clip-path="${clip}"`,
    ) +
    line(d, '#0d0e10', at.scale * 0.34, 0.85) +
    line(d, '#ffffff', at.scale * 0.1, 0.35)
  );
};

const seats = (sheet: Sheet, shape: Shape, at: Placing, colour: string): string => {
  const backs = shape.seats
    .map(({ x, top }) => {
      const points: PathPoint[] = [
        [x - 5, top - 12, 'corner'],
        [x - 1.6, top - 5],
        [x + 0.6, top - 0.5],
        [x + 2.4, top],
        [x + 4, top - 1],
        [x + 4, top - 12, 'corner'],
      ];
      const [, y0] = place(at, [0, top]);
      const [, y1] = place(at, [0, top - 7]);
      return fill(
        closed(at, points),
        sheet.linear(0, y0, 0, y1, [
          { at: 0, colour: deepen(colour, 0.95) },
          { at: 1, colour: deepen(colour, 0.45) },
        ]),
      );
    })
    .join('');
  if (!shape.wheelHub) return backs;
  const [x, y] = place(at, shape.wheelHub);
  const r = at.scale * 2.1;
  return `${backs}<ellipse cx="${px(x)}" cy="${px(y)}" rx="${px(r * 0.34)}" ry="${px(r)}" transform="rotate(24 ${px(x)} ${px(y)})" fill="none" stroke="${deepen(colour, 0.4)}" stroke-width="${px(at.scale * 0.4)}"/>`;
};

const seams = ({ shape, at, finish }: SideDrawing): string =>
  shape.seams
    .map(
      points =>
        line(
          curve(
            at,
            points.map(([x, y, corner]): PathPoint => [x + 0.2, y - 0.12, corner]),
          ),
          finish.lit,
          at.scale * 0.16,
          0.55,
        ) + line(curve(at, points), finish.dark, at.scale * 0.22, 0.9),
    )
    .join('');

/** Light on the upper edge, dark under the sill, bright lips of the arches. */
const rims = (sheet: Sheet, { shape, at, finish }: SideDrawing, d: string, clip: string): string => {
  const g = finish.gloss;
  const [x0] = place(at, [0, 0]);
  const [x1] = place(at, [100, 0]);
  const edge = sheet.linear(x0, 0, x1, 0, [
    { at: 0, colour: '#ffffff', opacity: 0.15 },
    { at: 0.2, colour: '#ffffff', opacity: 0.75 * g },
    { at: 0.5, colour: '#ffffff', opacity: 0.9 * g },
    { at: 0.8, colour: '#ffffff', opacity: 0.7 * g },
    { at: 1, colour: '#ffffff', opacity: 0.15 },
  ]);
  const lips = shape.arches
    ? shape.axles
        .map((x, i) => {
          const r = (shape.radii[i]! + archGap) * at.scale;
          const [cx, cy] = place(at, [x, shape.radii[i]!]);
          const arc = (radius: number) =>
            `M${px(cx - radius)} ${px(cy)}A${px(radius)} ${px(radius)} 0 0 1 ${px(cx + radius)} ${px(cy)}`;
          return (
            line(arc(r + at.scale * 0.35), finish.lit, at.scale * 0.22, 0.75 * g) +
            line(arc(r + at.scale * 0.85), finish.dark, at.scale * 0.3, 0.35) +
            line(arc(r), '#000000', at.scale * 0.25, 0.6)
          );
        })
        .join('')
    : '';
  return group(
    line(curve(at, shape.outline), edge, at.scale * 0.55) + lips + line(d, finish.dark, at.scale * 0.3, 0.5),
    `clip-path="${clip}"`,
  );
};

/** Arches, and the base between and beyond the wheels, bare or tinted. */
const underside = (sheet: Sheet, { shape, at, spec, finish }: SideDrawing): string => {
  const { axles, radii, sill } = shape;
  const write = (x: number, y: number) => place(at, [x, y]).map(px).join(' ');
  const box = (x0: number, x1: number, y0: number, y1: number) =>
    `M${write(x0, y0)}L${write(x1, y0)}L${write(x1, y1)}L${write(x0, y1)}Z`;
  const holes = shape.arches
    ? axles
        .map((x, i) => {
          const [cx, cy] = place(at, [x, radii[i]!]);
          return `<circle cx="${px(cx)}" cy="${px(cy)}" r="${px((radii[i]! + archGap) * at.scale)}" fill="#0c0c0d"/>`;
        })
        .join('')
    : '';
  const base = baseFill(sheet, spec, at, sill, finish);
  const first = shape.outline[0]![0];
  const last = shape.outline.at(-1)![0];
  return holes + box0(fill(box(first + 2.5, last - 2.5, sill + 1.5, sill - 2.2), base));
};

const box0 = (inner: string): string => group(inner);

const baseFill = (sheet: Sheet, spec: CarSpec, at: Placing, sill: number, finish: Finish): string => {
  const plastic = spec.year >= 1974;
  const bare = plastic ? '#2c2d2f' : zinc;
  const tint = mix(finish.body, zinc, 0.35);
  const [x0] = place(at, [0, 0]);
  const [x1] = place(at, [100, 0]);
  void sill;
  const stops =
    spec.basePaint === 'full'
      ? [{ at: 0, colour: deepen(tint, 0.62) }]
      : spec.basePaint === 'front quarter'
        ? [
            { at: 0, colour: deepen(tint, 0.62) },
            { at: 0.27, colour: deepen(tint, 0.62) },
            { at: 0.29, colour: deepen(bare, 0.62) },
          ]
        : spec.basePaint === 'rear quarter'
          ? [
              { at: 0.71, colour: deepen(bare, 0.62) },
              { at: 0.73, colour: deepen(tint, 0.62) },
            ]
          : [{ at: 0, colour: deepen(bare, 0.62) }];
  return sheet.linear(x0, 0, x1, 0, stops);
};

export const beltHeight = (shape: Shape, x: number): number => heightAt(shape.belt, x);
