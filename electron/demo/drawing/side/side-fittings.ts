import { type Point, place, px } from '../geometry.ts';
import { fill, group, line, type Sheet } from '../sheet.ts';
import { deepen, mix } from '../surface/colour-mixing.ts';
import { zinc } from '../surface/finish.ts';
import { blade, pipe } from './side-base.ts';
import type { SideDrawing } from './side-drawing.ts';

/** Lamps, bumpers, handles and the rear end. */
export const drawFittings = (sheet: Sheet, drawing: SideDrawing): string =>
  bumpers(sheet, drawing) + headlamp(sheet, drawing) + rearEnd(sheet, drawing) + handles(sheet, drawing);

/** Bumper blades on road cars; wedges and show cars have none. */
const bumpers = (sheet: Sheet, drawing: SideDrawing): string => {
  const { shape, spec } = drawing;
  if (
    spec.missing.includes('base') ||
    !['saloon', 'coupé', 'fastback', 'estate', 'pickup', 'van', 'roadster'].includes(spec.body)
  )
    return '';
  const first = shape.outline[0]!;
  const last = shape.outline.at(-1)!;
  const tall = spec.body === 'van' || spec.body === 'pickup' ? 2 : 1.7;
  const height = shape.sill + (spec.body === 'van' || spec.body === 'pickup' ? 2 : 2.4);
  const front = blade(sheet, drawing, first[0] - 1.7, first[0] + 5.2, height, tall);
  const rear =
    spec.rearEnd === 'split bumper'
      ? blade(sheet, drawing, last[0] - 7.5, last[0] - 2.6, height, tall) +
        blade(sheet, drawing, last[0] - 1.2, last[0] + 1.6, height, tall)
      : blade(sheet, drawing, last[0] - 5.4, last[0] + 1.6, height, tall);
  return front + rear;
};

/** A round lamp set in the nose, seen from its side as a sliver of bezel and glass. */
const headlamp = (sheet: Sheet, { shape, at, spec }: SideDrawing): string => {
  if (['wedge prototype', 'bubble-top', 'single-seater', 'open rod'].includes(spec.body)) return '';
  const [x, y] = place(at, shape.headlamp);
  const r = at.scale * (spec.body === 'van' || spec.body === 'pickup' ? 1.75 : 1.5);
  const lens = sheet.linear(0, y - r, 0, y + r, [
    { at: 0, colour: '#ffffff' },
    { at: 0.45, colour: '#cfd6d9' },
    { at: 0.55, colour: '#6e777c' },
    { at: 1, colour: '#e6e3da' },
  ]);
  return (
    `<ellipse cx="${px(x)}" cy="${px(y)}" rx="${px(r * 0.52)}" ry="${px(r * 1.08)}" fill="#1a1a1b" fill-opacity="0.6"/>` +
    `<ellipse cx="${px(x - r * 0.1)}" cy="${px(y)}" rx="${px(r * 0.44)}" ry="${px(r)}" fill="${lens}"/>` +
    `<ellipse cx="${px(x - r * 0.16)}" cy="${px(y - r * 0.35)}" rx="${px(r * 0.14)}" ry="${px(r * 0.28)}" fill="#ffffff"/>`
  );
};

const metalDown = (sheet: Sheet, y0: number, y1: number): string =>
  sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: '#f4f5f5' },
    { at: 0.35, colour: zinc },
    { at: 0.6, colour: deepen(zinc, 0.55) },
    { at: 1, colour: mix(zinc, '#ffffff', 0.2) },
  ]);

const handles = (sheet: Sheet, { shape, at, spec }: SideDrawing): string => {
  if (['wedge prototype', 'single-seater', 'dune car', 'open rod', 'bubble-top'].includes(spec.body))
    return '';
  return shape.seams
    .map(points => {
      const end = points.at(-1)!;
      const [x, y] = place(at, [end[0] - 4.4, end[1] - 2.5]);
      const w = at.scale * 2.9;
      const h = at.scale * 0.62;
      return (
        `<rect x="${px(x)}" y="${px(y + h * 0.5)}" width="${px(w)}" height="${px(h)}" rx="${px(h / 2)}" fill="#000000" fill-opacity="0.35"/>` +
        `<rect x="${px(x)}" y="${px(y)}" width="${px(w)}" height="${px(h)}" rx="${px(h / 2)}" fill="${metalDown(sheet, y, y + h)}"/>`
      );
    })
    .join('');
};

/** Red glass with a bright rim. */
const lamp = (sheet: Sheet, at: SideDrawing['at'], [cx, cy]: Point, rx: number, ry: number): string => {
  const [x, y] = place(at, [cx, cy]);
  const glow = sheet.linear(0, y - ry * at.scale, 0, y + ry * at.scale, [
    { at: 0, colour: '#ff9a86' },
    { at: 0.35, colour: '#c3241a' },
    { at: 1, colour: '#5c0d0a' },
  ]);
  const box = (grow: number, paint: string) =>
    `<rect x="${px(x - (rx + grow) * at.scale)}" y="${px(y - (ry + grow) * at.scale)}" width="${px(2 * (rx + grow) * at.scale)}" height="${px(2 * (ry + grow) * at.scale)}" rx="${px((Math.min(rx, ry) + grow) * at.scale)}" fill="${paint}"/>`;
  return box(0.22, '#b9bcbd') + box(0.06, '#2a0705') + box(0, glow);
};

/** What can be seen of the rear end from the side. */
const rearEnd = (sheet: Sheet, drawing: SideDrawing): string => {
  const { shape, at, spec } = drawing;
  const [tx, ty] = shape.tailLamp;
  const last = shape.outline.at(-1)!;
  const low = shape.sill + 0.2;
  switch (spec.rearEnd) {
    case 'round lamps':
      return lamp(sheet, at, [tx - 0.2, ty], 0.75, 1.35);
    case 'twin lamps':
      return (
        lamp(sheet, at, [tx - 0.2, ty + 0.7], 0.6, 0.95) + lamp(sheet, at, [tx - 0.25, ty - 2], 0.6, 0.95)
      );
    case 'bar lamp':
      return lamp(sheet, at, [tx - 1, ty + 0.2], 1.6, 0.55);
    case 'twin pipes':
      return (
        pipe(sheet, drawing, last[0] - 9, last[0] + 2.6, low - 0.9) + lamp(sheet, at, [tx - 0.4, ty], 0.6, 1)
      );
    case 'split bumper':
    case 'ducktail':
      return lamp(sheet, at, [tx - 0.9, ty - 0.6], 1.1, 0.7);
    case 'fin tail':
      return lamp(sheet, at, [tx - 1.3, ty + 2.2], 0.75, 1.15);
    case 'tailgate':
    case 'split tailgate':
    case 'double doors':
      return (
        hinges(sheet, drawing, spec.rearEnd === 'split tailgate' ? 3 : 2) +
        lamp(sheet, at, [tx - 0.5, ty - 1.2], 0.55, 1.3)
      );
    case 'step plate':
      return step(sheet, drawing) + lamp(sheet, at, [tx - 0.4, ty - 1], 0.55, 1.1);
    case 'spare wheel':
      return spare(sheet, drawing);
    case 'slatted tail':
      return louvres(drawing) + lamp(sheet, at, [tx - 1, ty - 0.4], 1.3, 0.5);
    case 'open engine':
    case 'open tail':
      return lamp(sheet, at, [tx - 0.4, ty - 1], 0.5, 0.9);
    default:
      return '';
  }
};

const hinges = (sheet: Sheet, { shape, at }: SideDrawing, count: number): string => {
  const [tx, ty] = shape.tailLamp;
  return Array.from({ length: count }, (_, i) => {
    const [x, y] = place(at, [tx - 0.4, ty + 2 - i * 4.4]);
    const w = at.scale * 0.9;
    return `<rect x="${px(x)}" y="${px(y)}" width="${px(w)}" height="${px(w * 0.8)}" rx="${px(w * 0.3)}" fill="${metalDown(sheet, y, y + w)}"/>`;
  }).join('');
};

const step = (sheet: Sheet, { shape, at }: SideDrawing): string => {
  const last = shape.outline.at(-1)!;
  const [x, y] = place(at, [last[0] - 2, shape.sill + 1.6]);
  const w = at.scale * 5.4;
  const h = at.scale * 0.9;
  return `<rect x="${px(x)}" y="${px(y)}" width="${px(w)}" height="${px(h)}" rx="2" fill="${metalDown(sheet, y, y + h)}"/>`;
};

/** A spare wheel on the tail, seen on edge. */
const spare = (sheet: Sheet, { shape, at }: SideDrawing): string => {
  const [tx, ty] = shape.tailLamp;
  const [x, y] = place(at, [tx - 0.5, ty + 3.2]);
  const w = at.scale * 3;
  const h = at.scale * 11.5;
  const rubber = sheet.linear(0, y, 0, y + h, [
    { at: 0, colour: '#4a4a4b' },
    { at: 0.2, colour: '#1e1e1f' },
    { at: 1, colour: '#090909' },
  ]);
  const treads = Array.from({ length: 3 }, (_, i) => {
    const tx0 = x + (w * (i + 1)) / 4;
    return line(`M${px(tx0)} ${px(y + h * 0.06)}V${px(y + h * 0.94)}`, '#000000', 1.2, 0.5);
  }).join('');
  return group(
    `<rect x="${px(x)}" y="${px(y)}" width="${px(w)}" height="${px(h)}" rx="${px(w * 0.42)}" fill="${rubber}"/>${treads}`,
  );
};

/** Slats over the engine, along the slope behind the roof. */
const louvres = ({ shape, at }: SideDrawing): string => {
  if (!shape.roof) return '';
  const [ex, ey] = shape.roof.at(-3)!;
  const [bx, by] = shape.roof.at(-1)!;
  return Array.from({ length: 6 }, (_, i) => {
    const t = 0.16 + i * 0.13;
    const [x, y] = place(at, [ex + (bx - ex) * t, ey + (by - ey) * t - 0.4]);
    const w = at.scale * 2.3;
    const d = `M${px(x)} ${px(y)}l${px(w)} ${px(at.scale * 0.3)}l${px(-w * 0.25)} ${px(at.scale * 0.75)}l${px(-w)} ${px(-at.scale * 0.2)}Z`;
    return (
      fill(d, '#101012', 0.85) +
      line(`M${px(x)} ${px(y)}l${px(w)} ${px(at.scale * 0.3)}`, '#ffffff', 1.1, 0.4)
    );
  }).join('');
};
