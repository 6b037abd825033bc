import { heightAt, type PathPoint, type Placing, place, px } from './geometry.ts';
import { box, slab, tube } from './metal-parts.ts';
import { fill, line, type Sheet } from './sheet.ts';
import type { SideDrawing } from './side-drawing.ts';

export type DrawAccessory = (sheet: Sheet, drawing: SideDrawing) => string;
type Draw = DrawAccessory;

/** Height of the car's top at x. */
export const topAt = ({ shape }: SideDrawing, x: number): number => heightAt(shape.outline, x);

const beacon: Draw = (sheet, drawing) => {
  const { at, shape } = drawing;
  const x = shape.roofSpot[0] - 1;
  const y = topAt(drawing, x);
  const [cx, cy] = place(at, [x, y + 0.9]);
  const r = at.scale * 1.55;
  const glass = sheet.radial(cx - r * 0.4, cy - r * 1.3, r * 2.4, [
    { at: 0, colour: '#bfe0ff' },
    { at: 0.35, colour: '#2f7fe0' },
    { at: 1, colour: '#0a2c68' },
  ]);
  const d = `M${px(cx - r)} ${px(cy)}V${px(cy - r * 0.9)}A${px(r)} ${px(r)} 0 0 1 ${px(cx + r)} ${px(cy - r * 0.9)}V${px(cy)}Z`;
  return (
    box(sheet, at, [x - 2.2, y - 0.4], [x + 2.2, y + 1]) +
    fill(d, glass) +
    line(`M${px(cx - r * 0.5)} ${px(cy - r * 0.4)}V${px(cy - r * 1.3)}`, '#ffffff', 2.2, 0.8)
  );
};

const board = (
  sheet: Sheet,
  at: Placing,
  x: number,
  y: number,
  half: number,
  colour: string,
  stripe: string,
): string => {
  const points: PathPoint[] = [
    [x - half, y + 0.9],
    [x - half * 0.7, y + 0.1],
    [x, y - 0.1],
    [x + half * 0.8, y],
    [x + half, y + 0.5],
    [x + half * 0.8, y + 1.1],
    [x, y + 1.3],
    [x - half * 0.8, y + 1.3],
  ];
  return (
    slab(sheet, at, points, colour, 0.6) +
    tube(
      at,
      [
        [x - half * 0.9, y + 0.75],
        [x, y + 0.62],
        [x + half * 0.92, y + 0.6],
      ],
      0.3,
      stripe,
    )
  );
};

const surfboards: Draw = (sheet, drawing) => {
  const { at, shape, spec } = drawing;
  const open = !shape.roof;
  const [x, spot] = shape.roofSpot;
  const y = open ? spot + 1.2 : topAt(drawing, x + 6) + 0.9;
  const half = open ? 20 : 26;
  const clip = (cx: number) => box(sheet, at, [cx - 0.7, y - 1.1], [cx + 0.7, y + 0.3]);
  const worn = spec.grade < 6;
  return (
    clip(x - (open ? 8 : 4)) +
    clip(x + (open ? 8 : 22)) +
    board(sheet, at, x + (open ? 0 : 8), y + 1.4, half * 0.94, worn ? '#cdb98d' : '#f0d9a4', '#c8402b') +
    board(sheet, at, x + (open ? 1 : 9), y, half, worn ? '#b8763c' : '#e58a2e', '#f5ecd8')
  );
};

const rack: Draw = (sheet, drawing) => {
  const { at, shape } = drawing;
  const x0 = shape.roof!.at(2)![0] + 4;
  const x1 = shape.roof!.at(4)![0] - 3;
  const y0 = topAt(drawing, x0);
  const y1 = topAt(drawing, x1);
  const middle = topAt(drawing, (x0 + x1) / 2);
  const level = Math.max(y0, y1, middle) + 1.7;
  const posts = [x0, (x0 + x1) / 2, x1]
    .map(x =>
      tube(
        at,
        [
          [x, topAt(drawing, x) - 0.2, 'corner'],
          [x, level, 'corner'],
        ],
        0.55,
      ),
    )
    .join('');
  const case0 = slab(
    sheet,
    at,
    [
      [x0 + 6, level - 0.9, 'corner'],
      [x0 + 6, level + 3.6, 'corner'],
      [x0 + 17, level + 3.6, 'corner'],
      [x0 + 17, level - 0.9, 'corner'],
    ],
    '#7a4a2a',
    0.3,
  );
  return (
    case0 +
    posts +
    tube(
      at,
      [
        [x0 - 1, level],
        [(x0 + x1) / 2, level + 0.1],
        [x1 + 1, level],
      ],
      0.6,
    ) +
    tube(
      at,
      [
        [x0 - 1, level - 0.9],
        [(x0 + x1) / 2, level - 0.8],
        [x1 + 1, level - 0.9],
      ],
      0.45,
    )
  );
};

const sign: Draw = (sheet, drawing) => {
  const { at, shape } = drawing;
  const x = shape.roofSpot[0] - 3;
  const y = topAt(drawing, x);
  return (
    slab(
      sheet,
      at,
      [
        [x - 3.4, y - 0.4, 'corner'],
        [x - 2.8, y + 2.9, 'corner'],
        [x + 2.8, y + 2.9, 'corner'],
        [x + 3.4, y - 0.4, 'corner'],
      ],
      '#f2ead2',
      0.6,
    ) + box(sheet, at, [x - 3.8, y - 0.5], [x + 3.8, y + 0.3])
  );
};

const cornet: Draw = (sheet, drawing) => {
  const { at } = drawing;
  const x = 60;
  const y = topAt(drawing, x);
  const cone: PathPoint[] = [
    [x - 0.7, y - 0.4, 'corner'],
    [x - 3, y + 6, 'corner'],
    [x + 3, y + 6, 'corner'],
    [x + 0.7, y - 0.4, 'corner'],
  ];
  const swirl = [
    [3.4, 6.6],
    [2.7, 8.3],
    [1.8, 9.8],
    [0.9, 11],
  ]
    .map(([r, dy]) => {
      const [cx, cy] = place(at, [x, y + dy!]);
      const w = r! * at.scale;
      const paint = sheet.radial(cx - w * 0.4, cy - w * 0.4, w * 1.7, [
        { at: 0, colour: '#fffaf0' },
        { at: 0.6, colour: '#f0dfc2' },
        { at: 1, colour: '#c7a987' },
      ]);
      return `<ellipse cx="${px(cx)}" cy="${px(cy)}" rx="${px(w)}" ry="${px(w * 0.5)}" fill="${paint}"/>`;
    })
    .join('');
  return slab(sheet, at, cone, '#c98f4e', 0.35) + swirl;
};

const crates: Draw = (sheet, drawing) => {
  const { at } = drawing;
  const y = topAt(drawing, 66) - 0.3;
  const crate = (x: number, base: number) => {
    const bottles = [0.9, 2.9, 4.9, 6.9]
      .map(dx => {
        const [bx, by] = place(at, [x + dx, base + 2.2]);
        const w = at.scale * 0.75;
        const h = at.scale * 2.5;
        return (
          `<rect x="${px(bx - w)}" y="${px(by - h)}" width="${px(2 * w)}" height="${px(h)}" rx="${px(w * 0.8)}" fill="#f4f1e8" stroke="#9a958a" stroke-width="0.8"/>` +
          `<rect x="${px(bx - w * 0.7)}" y="${px(by - h - w * 0.3)}" width="${px(1.4 * w)}" height="${px(w * 0.9)}" rx="1.5" fill="#c9ccce"/>`
        );
      })
      .join('');
    return (
      bottles +
      slab(
        sheet,
        at,
        [
          [x, base, 'corner'],
          [x, base + 2.8, 'corner'],
          [x + 7.8, base + 2.8, 'corner'],
          [x + 7.8, base, 'corner'],
        ],
        '#a8763f',
        0.3,
      )
    );
  };
  return crate(50, y) + crate(59.4, y) + crate(68.8, y - 0.1);
};

/** What a car carries on its roof. */
export const roofAccessories: Record<string, DrawAccessory> = {
  'roof beacon': beacon,
  surfboards,
  'roof rack': rack,
  'roof sign': sign,
  'roof cornet': cornet,
  'milk crates': crates,
};
