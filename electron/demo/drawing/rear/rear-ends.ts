import { type PathPoint, type Placing, place, px } from '../geometry.ts';
import { line, type Sheet } from '../sheet.ts';
import { deepen, shade } from '../surface/colour-mixing.ts';
import { baseTint, bodyColour } from '../surface/finish.ts';
import { box, engine, slab, tube } from '../surface/metal-parts.ts';
import { drawWheel } from '../wheels.ts';
import type { RearDrawing } from './rear-drawing.ts';
import { halfWidth } from './rear-shapes.ts';

/** Everything on the tail that tells one rear end from another. */
export const rearEnd = (drawing: RearDrawing): string => {
  const { spec } = drawing;
  const bumpers = spec.body === 'wedge prototype' || spec.body === 'bubble-top' ? '' : bumper(drawing);
  const special = tails[spec.rearEnd];
  return plate(drawing) + (special ? special(drawing) : '') + bumpers;
};

/** A lamp with a bright rim; wide lamps are bars. */
const lamp = (sheet: Sheet, at: Placing, x: number, y: number, rx: number, ry: number): string => {
  const [cx, cy] = place(at, [x, y]);
  const red = sheet.radial(
    cx - rx * at.scale * 0.3,
    cy - ry * at.scale * 0.5,
    Math.max(rx, ry) * at.scale * 1.4,
    [
      { at: 0, colour: '#ffb3a0' },
      { at: 0.3, colour: '#d8301f' },
      { at: 1, colour: '#5a0c09' },
    ],
  );
  const oval = (grow: number, paint: string) =>
    `<rect x="${px(cx - (rx + grow) * at.scale)}" y="${px(cy - (ry + grow) * at.scale)}" width="${px(2 * (rx + grow) * at.scale)}" height="${px(2 * (ry + grow) * at.scale)}" rx="${px((Math.min(rx, ry) + grow) * at.scale)}" fill="${paint}"/>`;
  return oval(0.35, '#c3c7c9') + oval(0.12, '#240605') + oval(0, red);
};

const pair = ({ sheet, at }: RearDrawing, x: number, y: number, rx: number, ry: number): string =>
  lamp(sheet, at, -x, y, rx, ry) + lamp(sheet, at, x, y, rx, ry);

/** Middle of the tail panel. */
const middle = ({ shape }: RearDrawing): number => {
  const top = Math.min(shape.deck, 21);
  return shape.sill + (top - shape.sill) * 0.66;
};

const seam = ({ at, spec }: RearDrawing, points: PathPoint[]): string => {
  const d = points.map((point, i) => `${i === 0 ? 'M' : 'L'}${place(at, point).map(px).join(' ')}`).join('');
  const colour = bodyColour(spec);
  return (
    line(d, deepen(colour, 0.25), at.scale * 0.28, 0.9) +
    line(d, shade(colour, 0.25, 0.7), at.scale * 0.1, 0.5)
  );
};

/** A bumper across the tail, cast with the base. */
const bumper = (drawing: RearDrawing): string => {
  const { sheet, at, shape, spec } = drawing;
  if (spec.missing.includes('base')) return '';
  const w = halfWidth + 0.4;
  const y = shape.sill + 2;
  const painted = spec.basePaint === 'full' || spec.basePaint === 'rear quarter';
  const colour = painted ? baseTint(spec) : spec.year >= 1974 ? '#37383a' : '#c6c9ca';
  const blade = (from: number, to: number) =>
    slab(
      sheet,
      at,
      [
        [from, y, 'corner'],
        [from, y + 2.1, 'corner'],
        [to, y + 2.1, 'corner'],
        [to, y, 'corner'],
      ],
      colour,
      0.6,
    );
  return spec.rearEnd === 'split bumper' ? blade(-w, -6) + blade(6, w) : blade(-w, w);
};

/** The number plate, cast blank. */
const plate = (drawing: RearDrawing): string => {
  const { sheet, at, shape } = drawing;
  const y = shape.sill + 5.4;
  return box(sheet, at, [-4.2, y], [4.2, y + 2.5], '#d7d3c6', 0.4);
};

const pipes = ({ sheet, at, shape }: RearDrawing): string =>
  [-9.6, -7, 7, 9.6]
    .map(x => {
      const [cx, cy] = place(at, [x, shape.sill - 0.9]);
      const r = at.scale * 1.05;
      const metal = sheet.linear(0, cy - r, 0, cy + r, [
        { at: 0, colour: '#ffffff' },
        { at: 0.5, colour: '#9ba0a3' },
        { at: 1, colour: '#4d5154' },
      ]);
      return `<circle cx="${px(cx)}" cy="${px(cy)}" r="${px(r)}" fill="${metal}"/><circle cx="${px(cx)}" cy="${px(cy)}" r="${px(r * 0.66)}" fill="#0e0e0e"/>`;
    })
    .join('');

const lip = ({ sheet, at, shape, spec }: RearDrawing): string =>
  slab(
    sheet,
    at,
    [
      [-halfWidth + 1.6, shape.deck - 0.8, 'corner'],
      [-halfWidth + 3, shape.deck + 1.7],
      [0, shape.deck + 2.3],
      [halfWidth - 3, shape.deck + 1.7],
      [halfWidth - 1.6, shape.deck - 0.8, 'corner'],
      [0, shape.deck - 0.2],
    ],
    bodyColour(spec),
    0.5,
  );

const slats = ({ sheet, at, shape }: RearDrawing): string =>
  Array.from({ length: 5 }, (_, i) => {
    const y = shape.deck + 0.4 + ((shape.roof - shape.deck - 3) * i) / 4.6;
    const w = halfWidth - 8.4 - i * 0.8;
    return (
      box(sheet, at, [-w, y], [w, y + 0.9], '#141416', 0.3) +
      line(
        `M${place(at, [-w, y + 0.9])
          .map(px)
          .join(' ')}L${place(at, [w, y + 0.9])
          .map(px)
          .join(' ')}`,
        '#ffffff',
        1.2,
        0.35,
      )
    );
  }).join('');

const doors = (drawing: RearDrawing): string => {
  const { sheet, at, shape } = drawing;
  const low = shape.sill + 3;
  const high = shape.roof - 1.8;
  const w = halfWidth - 3.4;
  return (
    seam(drawing, [
      [-w, low],
      [-w + 0.4, high - 3],
      [-w + 2, high],
      [w - 2, high],
      [w - 0.4, high - 3],
      [w, low],
    ]) +
    seam(drawing, [
      [0, low],
      [0, high],
    ]) +
    box(sheet, at, [0.8, shape.sill + 13], [1.7, shape.sill + 16.4], undefined, 0.4) +
    pair(drawing, halfWidth - 1.9, shape.sill + 9.4, 0.8, 2)
  );
};

const gate = (drawing: RearDrawing, split: boolean): string => {
  const { shape } = drawing;
  const low = shape.sill + 4.6;
  const high = shape.hasRoof ? shape.roof - 12.6 : shape.deck - 1;
  const w = halfWidth - 3.2;
  const frame = seam(drawing, [
    [-w, high],
    [-w, low],
    [w, low],
    [w, high],
  ]);
  const cut = split
    ? seam(drawing, [
        [-w, high],
        [w, high],
      ])
    : '';
  return frame + cut + pair(drawing, halfWidth - 1.8, middle(drawing) + 0.6, 0.9, 2.1);
};

const spare = (drawing: RearDrawing): string => {
  const { sheet, at, shape, spec } = drawing;
  const [x, y] = place(at, [0, Math.min(shape.deck + 1, shape.sill + 12)]);
  return (
    pair(drawing, halfWidth - 2.6, middle(drawing), 1.2, 1.2) +
    drawWheel(sheet, {
      x,
      y,
      r: at.scale * 7,
      kind: spec.wheels,
      bright: spec.grade / 10,
      reproduction: false,
      turn: 0.5,
    })
  );
};

const openEngine = (drawing: RearDrawing): string => {
  const { sheet, at, shape } = drawing;
  const y = shape.sill + 4.4;
  return (
    box(sheet, at, [-11, y - 1.4], [11, y + 8.6], '#101112', 1.4) +
    engine(sheet, at, [-7, y - 0.4], 14, 11.4) +
    tube(
      at,
      [
        [-6, y + 1],
        [-9, y - 1.6],
        [-10, y - 3.4],
      ],
      1.2,
    ) +
    tube(
      at,
      [
        [6, y + 1],
        [9, y - 1.6],
        [10, y - 3.4],
      ],
      1.2,
    ) +
    pair(drawing, halfWidth - 3, middle(drawing) + 1.4, 1.9, 0.9)
  );
};

const tails: Record<string, (drawing: RearDrawing) => string> = {
  'round lamps': drawing => pair(drawing, halfWidth - 4, middle(drawing), 1.9, 1.9),
  'twin lamps': drawing =>
    pair(drawing, halfWidth - 3.6, middle(drawing), 1.6, 1.6) +
    pair(drawing, halfWidth - 8, middle(drawing), 1.6, 1.6),
  'bar lamp': drawing => lamp(drawing.sheet, drawing.at, 0, middle(drawing), halfWidth - 3.4, 1),
  'split bumper': drawing => pair(drawing, halfWidth - 4.6, middle(drawing), 2.6, 1.1),
  'fin tail': drawing => pair(drawing, halfWidth - 2.4, middle(drawing) + 2, 0.9, 2.2),
  'twin pipes': drawing => pipes(drawing) + pair(drawing, halfWidth - 4.4, middle(drawing), 1.5, 1.5),
  ducktail: drawing => lip(drawing) + pair(drawing, halfWidth - 5, middle(drawing), 3, 1),
  'boat tail': drawing =>
    seam(drawing, [
      [0, drawing.shape.sill + 2],
      [0, drawing.shape.deck + 0.6],
    ]) + pair(drawing, halfWidth - 5, middle(drawing) - 0.6, 1.2, 1.6),
  'slatted tail': drawing =>
    slats(drawing) + lamp(drawing.sheet, drawing.at, 0, middle(drawing), halfWidth - 4, 0.9),
  'open engine': openEngine,
  'double doors': doors,
  tailgate: drawing => gate(drawing, false),
  'split tailgate': drawing => gate(drawing, true),
  'step plate': drawing =>
    gate(drawing, false) +
    box(
      drawing.sheet,
      drawing.at,
      [-14, drawing.shape.sill - 1],
      [14, drawing.shape.sill + 0.9],
      undefined,
      0.4,
    ),
  'open tail': drawing =>
    box(
      drawing.sheet,
      drawing.at,
      [-halfWidth + 3.6, drawing.shape.sill + 4.4],
      [halfWidth - 3.6, Math.min(drawing.shape.deck, 24) - 0.6],
      '#1c1d1e',
      0.8,
    ) + pair(drawing, halfWidth - 1.8, middle(drawing), 0.8, 1.8),
  'spare wheel': spare,
};
