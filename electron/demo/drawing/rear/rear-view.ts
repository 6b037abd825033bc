import { curve, type Point, place, px, rounded } from '../geometry.ts';
import { shapeOf } from '../shapes/index.ts';
import { fill, group, line, type Sheet } from '../sheet.ts';
import type { CarSpec } from '../spec.ts';
import { canvas, drawPaper, drawShadow, type Paper } from '../studio.ts';
import { surfaceImage } from '../surface/body-picture.ts';
import { deepen } from '../surface/colour-mixing.ts';
import { baseTint, bodyColour, glazingTints, interiorColours, roofColour } from '../surface/finish.ts';
import { slab } from '../surface/metal-parts.ts';
import type { RearDrawing } from './rear-drawing.ts';
import { rearEnd } from './rear-ends.ts';
import { halfWidth, rearShapeOf } from './rear-shapes.ts';
import { rearOutline, rearSurface } from './rear-surface.ts';

const ground = 650;

/** The tail seen straight on, closer than the other photographs. */
export const drawRear = (sheet: Sheet, spec: CarSpec, paper: Paper): string => {
  const shape = rearShapeOf(spec);
  const tall = shape.roof > 32 ? 15.2 : 17;
  const at = { left: canvas.width / 2, ground, scale: tall };
  const drawing = { sheet, spec, shape, at };
  const surface = rearSurface(shape, at.scale);
  const outline = `${curve(at, rearOutline(shape))}Z`;
  const [x, y] = place(at, [surface.left, surface.top]);
  const image = `<image x="${px(x)}" y="${px(y)}" width="${surface.width}" height="${surface.height}" preserveAspectRatio="none" href="${surfaceImage(sheet.palette, surface, spec)}"/>`;
  const reach = halfWidth * at.scale;
  return (
    drawPaper(sheet, paper, ground) +
    drawShadow(sheet, paper, {
      left: at.left - reach,
      right: at.left + reach,
      ground,
      wheels: [-1, 1].map((side): [number, number] => [at.left + side * 16 * at.scale, 5 * at.scale]),
    }) +
    underneath(drawing) +
    beyond(drawing) +
    group(image, `clip-path="${sheet.clip(outline)}"`) +
    line(outline, deepen(bodyColour(spec), 0.25), 1.6, 0.5) +
    backlight(drawing) +
    rearEnd(drawing)
  );
};

/** Tyres, the dark between them, the rear axle and the edge of the base. */
const underneath = ({ sheet, spec, shape, at }: RearDrawing): string => {
  const radius = shapeOf(spec).radii[1];
  const block = (x: number): string => {
    const [x0, y0] = place(at, [x - 3.1, 2 * radius]);
    const [x1, y1] = place(at, [x + 3.1, 0]);
    const rubber = sheet.linear(x0, 0, x1, 0, [
      { at: 0, colour: '#0c0c0d' },
      { at: 0.25, colour: '#3a3a3b' },
      { at: 0.6, colour: '#29292a' },
      { at: 1, colour: '#0b0b0c' },
    ]);
    const bands = [0.24, 0.42, 0.6, 0.78]
      .map(t => line(`M${px(x0 + (x1 - x0) * t)} ${px(y0 + 8)}V${px(y1 - 8)}`, '#000000', 2, 0.45))
      .join('');
    return `<rect x="${px(x0)}" y="${px(y0)}" width="${px(x1 - x0)}" height="${px(y1 - y0)}" rx="${px(at.scale * 1.2)}" fill="${rubber}"/>${bands}`;
  };
  const gone = spec.missing.includes('wheels');
  const [ax0, ay] = place(at, [-13.5, radius]);
  const [ax1] = place(at, [13.5, radius]);
  const axle = sheet.linear(0, ay - at.scale * 0.5, 0, ay + at.scale * 0.5, [
    { at: 0, colour: '#f0f0ee' },
    { at: 0.5, colour: '#a09e9a' },
    { at: 1, colour: '#4a4844' },
  ]);
  const painted = spec.basePaint === 'full' || spec.basePaint === 'rear quarter';
  const bare = spec.year >= 1974 ? '#303133' : '#b6b8b8';
  const base = painted ? baseTint(spec) : bare;
  const w = halfWidth - 2.4;
  const low: Point[] = [
    [-w, shape.sill + 1.4],
    [w, shape.sill + 1.4],
    [w - 1.8, shape.sill - 1.7],
    [-w + 1.8, shape.sill - 1.7],
  ];
  const [, y0] = place(at, [0, shape.sill + 0.6]);
  const [, y1] = place(at, [0, shape.sill - 1.7]);
  const form = sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: '#000000', opacity: 0.5 },
    { at: 0.3, colour: '#ffffff', opacity: 0.2 },
    { at: 1, colour: '#000000', opacity: 0.65 },
  ]);
  const dark: Point[] = [
    [-w + 1, shape.sill],
    [w - 1, shape.sill],
    [w - 3, shape.sill - 3.2],
    [-w + 3, shape.sill - 3.2],
  ];
  const d = rounded(at, low, 1);
  return (
    fill(rounded(at, dark, 1), '#121213', 0.85) +
    `<rect x="${px(ax0)}" y="${px(ay - at.scale * 0.5)}" width="${px(ax1 - ax0)}" height="${px(at.scale)}" fill="${axle}"/>` +
    (gone ? '' : block(-15.6)) +
    block(15.6) +
    (spec.missing.includes('base') ? '' : fill(d, base) + fill(d, form))
  );
};

/** The rear window, or the two in a van's doors. */
const backlight = ({ sheet, spec, shape, at }: RearDrawing): string => {
  if (!shape.hasRoof || spec.body === 'wedge prototype') return '';
  const upright = spec.body === 'van' || spec.body === 'estate';
  const top = shape.roof - 3.2;
  const foot = upright ? shape.roof - 12 : shape.deck + 1.1;
  const wide = halfWidth - (upright ? 5.4 : 6.2);
  const narrowTop = halfWidth - (upright ? 6.4 : 9.2);
  const panes: Point[][] =
    spec.rearEnd === 'double doors'
      ? [-1, 1].map((side): Point[] => [
          [side * 1.3, foot],
          [side * 1.3, top],
          [side * (narrowTop - 0.6), top],
          [side * (wide - 0.8), foot],
        ])
      : [
          [
            [-wide, foot],
            [-narrowTop, top],
            [narrowTop, top],
            [wide, foot],
          ],
        ];
  const tint = glazingTints[spec.glazing] ?? glazingTints.clear!;
  const [, y0] = place(at, [0, top]);
  const [, y1] = place(at, [0, foot]);
  const inside = sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: '#1f1e1d' },
    { at: 0.3, colour: '#5b5852' },
    { at: 0.7, colour: '#8a867d' },
    { at: 1, colour: '#2a2826' },
  ]);
  const sky = sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: '#ffffff', opacity: 0.72 },
    { at: 0.32, colour: '#ffffff', opacity: 0.3 },
    { at: 0.36, colour: '#ffffff', opacity: 0.05 },
    { at: 1, colour: '#000000', opacity: 0.2 },
  ]);
  const d = panes.map(points => rounded(at, points, 1.3)).join('');
  const gone = spec.missing.includes('glazing');
  return (
    fill(d, inside) +
    (gone ? '' : fill(d, tint.colour, tint.depth + 0.1) + fill(d, sky, 0.8)) +
    line(d, '#0c0c0d', at.scale * 0.4, 0.85)
  );
};

/** What stands beyond the tail of a pickup or an open car: the cab, the seats and the windscreen. */
const beyond = ({ sheet, spec, at }: RearDrawing): string => {
  const side = shapeOf(spec);
  if (spec.body === 'pickup') {
    const roof = Math.max(...side.roof!.map(([, y]) => y));
    const foot = side.deckSpot[1] - 1;
    const colour = roofColour(spec.roof) ?? bodyColour(spec);
    const cab: Point[] = [
      [-halfWidth + 3, foot],
      [-halfWidth + 5.4, roof - 1],
      [-halfWidth + 8, roof],
      [halfWidth - 8, roof],
      [halfWidth - 5.4, roof - 1],
      [halfWidth - 3, foot],
    ];
    const pane: Point[] = [
      [-halfWidth + 6, foot + 2.4],
      [-halfWidth + 7.6, roof - 2.4],
      [halfWidth - 7.6, roof - 2.4],
      [halfWidth - 6, foot + 2.4],
    ];
    const [, y0] = place(at, [0, roof]);
    const [, y1] = place(at, [0, foot]);
    const form = sheet.linear(0, y0, 0, y1, [
      { at: 0, colour: '#ffffff', opacity: 0.55 },
      { at: 0.12, colour: '#ffffff', opacity: 0.1 },
      { at: 0.5, colour: '#000000', opacity: 0.2 },
      { at: 1, colour: '#000000', opacity: 0.55 },
    ]);
    const glass = glazingTints[spec.glazing] ?? glazingTints.clear!;
    const d = rounded(at, cab, 1.6);
    const window = rounded(at, pane, 1.2);
    return (
      fill(d, colour) +
      fill(d, form) +
      fill(window, '#57544e') +
      (spec.missing.includes('glazing')
        ? ''
        : fill(window, glass.colour, glass.depth + 0.16) + fill(window, form, 0.5)) +
      line(window, '#0c0c0d', at.scale * 0.35, 0.8)
    );
  }
  if (spec.body !== 'roadster') return '';
  const hy = side.screen!.head[1];
  const seat = interiorColours[spec.interior] ?? '#2b2c2f';
  const backs = [-7.4, 7.4].map(x => {
    const top = side.seats[0]!.top;
    return slab(
      sheet,
      at,
      [
        [x - 4.6, top - 9, 'corner'],
        [x - 4.2, top - 1.4],
        [x, top],
        [x + 4.2, top - 1.4],
        [x + 4.6, top - 9, 'corner'],
      ],
      seat,
      0.3,
    );
  });
  const screen: Point[] = [
    [-14.6, hy - 6.4],
    [-13, hy],
    [13, hy],
    [14.6, hy - 6.4],
  ];
  const pane = rounded(at, screen, 1);
  return (
    (spec.missing.includes('glazing')
      ? ''
      : fill(pane, '#ffffff', 0.28) +
        line(pane, '#5c6064', at.scale * 0.6, 0.9) +
        line(pane, '#e9ecec', at.scale * 0.3, 0.9)) +
    (spec.missing.includes('interior') ? '' : backs.join(''))
  );
};
