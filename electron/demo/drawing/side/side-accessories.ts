import { type PathPoint, place, px } from '../geometry.ts';
import { line, type Sheet } from '../sheet.ts';
import { bodyColour } from '../surface/finish.ts';
import { box, slab, tube } from '../surface/metal-parts.ts';
import { type DrawAccessory, roofAccessories, topAt } from './roof-accessories.ts';
import type { SideDrawing } from './side-drawing.ts';

type Draw = DrawAccessory;

/** The accessory of the variation, where the car still has it. */
export const drawAccessory = (sheet: Sheet, drawing: SideDrawing): string => {
  const { spec } = drawing;
  if (spec.missing.includes('accessory')) return '';
  const draw = accessories[spec.accessory];
  return draw ? draw(sheet, drawing) : '';
};

const scoop: Draw = (sheet, drawing) => {
  const { at, shape, spec } = drawing;
  const x = shape.bonnetSpot[0];
  const y = topAt(drawing, x);
  const points: PathPoint[] = [
    [x - 5, y - 0.8, 'corner'],
    [x - 4.6, y + 2.2, 'corner'],
    [x, y + 2.5],
    [x + 6.5, y + 0.3, 'corner'],
    [x + 6, y - 0.8, 'corner'],
  ];
  const [mx, my] = place(at, [x - 4.7, y + 1]);
  return (
    slab(sheet, at, points, bodyColour(spec), 0.4) +
    `<ellipse cx="${px(mx)}" cy="${px(my)}" rx="${px(at.scale * 0.35)}" ry="${px(at.scale * 0.85)}" fill="#0c0c0d"/>`
  );
};

const wing: Draw = (sheet, { at, shape, spec }) => {
  const free = spec.body === 'single-seater';
  const x = shape.deckSpot[0] - (free ? 0 : 2.4);
  const y = shape.deckSpot[1];
  const top = y + (free ? 9 : 4.6);
  const blade: PathPoint[] = [
    [x - 6, top + 0.3, 'corner'],
    [x - 2, top + 1.1],
    [x + 5.6, top + 1.5, 'corner'],
    [x + 5.2, top + 0.5],
    [x - 2, top - 0.1],
  ];
  const plate: PathPoint[] = [
    [x - 4.4, top - 1.6, 'corner'],
    [x - 4.8, top + 1.6, 'corner'],
    [x + 5.8, top + 2.2, 'corner'],
    [x + 5.6, top - 1, 'corner'],
  ];
  return (
    tube(
      at,
      [
        [x - 2, y - 1, 'corner'],
        [x - 1.2, top, 'corner'],
      ],
      0.8,
    ) +
    tube(
      at,
      [
        [x + 2.6, y - 1.4, 'corner'],
        [x + 2.8, top + 0.4, 'corner'],
      ],
      0.8,
    ) +
    slab(sheet, at, blade, '#2b2c2e', 0.3) +
    slab(sheet, at, plate, bodyColour(spec), 0.45)
  );
};

const cover: Draw = (sheet, { at, shape }) => {
  if (!shape.bed) return '';
  const { from, to, rail } = shape.bed;
  return slab(
    sheet,
    at,
    [
      [from - 0.6, rail - 0.7, 'corner'],
      [from, rail + 1.3],
      [(from + to) / 2, rail + 1.7],
      [to - 1, rail + 1.1],
      [to + 0.2, rail - 0.7, 'corner'],
    ],
    '#242527',
    0.22,
  );
};

const jib: Draw = (sheet, { at, shape }) => {
  if (!shape.bed) return '';
  const { from, to, rail } = shape.bed;
  const mast = from + (to - from) * 0.42;
  const tip: [number, number] = [to + 2.4, rail + 13.4];
  const [hx, hy] = place(at, tip);
  const drop = at.scale * 7;
  return (
    tube(
      at,
      [
        [mast - 7, rail - 1, 'corner'],
        [mast, rail + 8.6, 'corner'],
      ],
      1.3,
      '#a9adaf',
    ) +
    tube(
      at,
      [
        [mast + 6, rail - 1, 'corner'],
        [mast, rail + 8.6, 'corner'],
      ],
      1.3,
      '#a9adaf',
    ) +
    tube(
      at,
      [
        [mast - 4.4, rail + 1.4, 'corner'],
        [tip[0], tip[1], 'corner'],
      ],
      1.6,
      '#c4c8ca',
    ) +
    line(`M${px(hx)} ${px(hy)}v${px(drop)}`, '#1c1c1c', 2, 0.9) +
    line(
      `M${px(hx)} ${px(hy + drop)}q${px(at.scale * 1.2)} ${px(at.scale * 0.4)} ${px(at.scale * 0.3)} ${px(at.scale * 1.7)}q${px(-at.scale)} ${px(at.scale * 0.3)} ${px(-at.scale * 1.1)} ${px(-at.scale * 0.6)}`,
      '#b9bdbf',
      3.4,
    ) +
    box(sheet, at, [mast - 5.5, rail + 0.2], [mast - 1.5, rail + 3.4], undefined, 1.4)
  );
};

const ladder: Draw = (_sheet, { at, shape }) => {
  const bed = shape.bed;
  const from = bed ? bed.from - 8 : 30;
  const to = bed ? bed.to + 3 : 86;
  const y = bed ? bed.rail + 1.4 : shape.roofSpot[1] + 1.4;
  const rungs = Array.from({ length: 9 }, (_, i) => {
    const x = from + 3 + ((to - from - 6) * i) / 8;
    return tube(
      at,
      [
        [x, y + 0.2, 'corner'],
        [x + 0.4, y + 2.5, 'corner'],
      ],
      0.5,
      '#b98a4e',
    );
  }).join('');
  return (
    tube(
      at,
      [
        [from, y + 2.6, 'corner'],
        [to, y + 2.4, 'corner'],
      ],
      0.7,
      '#b98a4e',
    ) +
    rungs +
    tube(
      at,
      [
        [from, y + 0.1, 'corner'],
        [to, y, 'corner'],
      ],
      0.8,
      '#c79a5c',
    )
  );
};

const accessories: Record<string, DrawAccessory> = {
  ...roofAccessories,
  'air scoop': scoop,
  'rear wing': wing,
  'load cover': cover,
  'crane jib': jib,
  ladder,
};
