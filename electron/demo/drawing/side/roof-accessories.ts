import { heightAt, type PathPoint, type Placing, place, px } from '../geometry.ts';
import { fill, line, type Sheet } from '../sheet.ts';
import { box, slab, tube } from '../surface/metal-parts.ts';
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

/** A wicker basket of the maker's own pattern, with two straps and a rolled rug on its lid. */
const hamper: Draw = (sheet, drawing) => {
  const { at, shape, spec } = drawing;
  const open = !shape.roof;
  const worn = spec.grade < 6;
  const [spot, height] = shape.roofSpot;
  const [half, tall] = open ? [8.5, 5.6] : [11, 6.2];
  const x = open ? spot : spot + 6;
  const foot = open ? height + 1 : Math.max(topAt(drawing, x - half), topAt(drawing, x + half)) + 0.7;
  const lid = foot + tall * 0.68;
  const willow = worn ? '#7c8a79' : '#7f9a86';
  const leather = worn ? '#8d7f6d' : '#e9dfc6';
  const pegs = [-0.62, 0.62].map(side =>
    box(sheet, at, [x + side * half - 0.8, foot - 1.5], [x + side * half + 0.8, foot + 0.4]),
  );
  const basket: PathPoint[] = [
    [x - half * 0.93, foot, 'corner'],
    [x - half, lid, 'corner'],
    [x + half, lid, 'corner'],
    [x + half * 0.93, foot, 'corner'],
  ];
  const cover: PathPoint[] = [
    [x - half - 0.5, lid - 0.1, 'corner'],
    [x - half - 0.2, lid + tall * 0.22],
    [x, lid + tall * 0.36],
    [x + half + 0.2, lid + tall * 0.22],
    [x + half + 0.5, lid - 0.1, 'corner'],
  ];
  const straps = [-0.5, 0.5].map(side => {
    const sx = x + side * half;
    const [bx, by] = place(at, [sx, lid]);
    const buckle = at.scale * 0.62;
    return (
      slab(
        sheet,
        at,
        [
          [sx - 0.75, foot, 'corner'],
          [sx - 0.75, lid + tall * 0.31, 'corner'],
          [sx + 0.75, lid + tall * 0.31, 'corner'],
          [sx + 0.75, foot, 'corner'],
        ],
        leather,
        0.2,
      ) +
      `<rect x="${px(bx - buckle)}" y="${px(by - buckle * 0.3)}" width="${px(2 * buckle)}" height="${px(2 * buckle)}" rx="${px(buckle * 0.3)}" fill="none" stroke="#6b5a24" stroke-width="${px(buckle * 0.75)}"/>` +
      `<rect x="${px(bx - buckle)}" y="${px(by - buckle * 0.3)}" width="${px(2 * buckle)}" height="${px(2 * buckle)}" rx="${px(buckle * 0.3)}" fill="none" stroke="#d9bf6a" stroke-width="${px(buckle * 0.45)}"/>`
    );
  });
  return (
    pegs.join('') +
    rug(sheet, drawing, x, lid + tall * 0.34, half * 0.72) +
    slab(sheet, at, basket, willow, 0.35) +
    weave(at, x, half * 0.96, foot + 0.25, lid - 0.3) +
    slab(sheet, at, cover, willow, 0.55) +
    straps.join('')
  );
};

/** Rows of willow, each rod over the one post and under the next. */
const weave = (at: Placing, x: number, half: number, from: number, to: number): string => {
  const rows = 4;
  const posts = 13;
  const tall = (to - from) / rows;
  const rods = (lift: number) =>
    Array.from({ length: rows }, (_, row) =>
      Array.from({ length: posts }, (_, post) => {
        if ((row + post) % 2 === 0) return '';
        const left = x - half + (2 * half * post) / posts;
        const y = from + tall * (row + 0.5) + lift;
        const [x0, y0] = place(at, [left - 0.15, y]);
        const [x1] = place(at, [left + (2 * half) / posts + 0.15, y]);
        return `M${px(x0)} ${px(y0)}Q${px((x0 + x1) / 2)} ${px(y0 - at.scale * 0.28)} ${px(x1)} ${px(y0)}`;
      }).join(''),
    ).join('');
  return (
    line(rods(-tall * 0.22), '#1d2a22', at.scale * tall * 0.42, 0.55) +
    line(rods(0.06), '#c6d6c2', at.scale * tall * 0.4, 0.75)
  );
};

/** A striped rug, rolled up and lying along the lid, its end showing the turns. */
const rug = (sheet: Sheet, { at }: SideDrawing, x: number, y: number, half: number): string => {
  const r = 1.75;
  const middle = y + r * 0.72;
  const roll: PathPoint[] = [
    [x - half, middle - r, 'corner'],
    [x - half, middle + r, 'corner'],
    [x + half, middle + r, 'corner'],
    [x + half, middle - r, 'corner'],
  ];
  const stripes = [-0.72, -0.24, 0.24, 0.72].map(share => {
    const [x0, y0] = place(at, [x + share * half - half * 0.08, middle + r]);
    const [x1, y1] = place(at, [x + share * half + half * 0.08, middle - r]);
    return fill(`M${px(x0)} ${px(y0)}H${px(x1)}V${px(y1)}H${px(x0)}Z`, '#7a2f4f', 0.9);
  });
  const [cx, cy] = place(at, [x + half, middle]);
  const w = at.scale * r;
  const turns = [1, 0.62, 0.26].map(
    size =>
      `<ellipse cx="${px(cx)}" cy="${px(cy)}" rx="${px(w * 0.42 * size)}" ry="${px(w * size)}" fill="${size === 0.62 ? '#7a2f4f' : '#efe4d2'}" stroke="#3a1c28" stroke-width="1"/>`,
  );
  const round = sheet.linear(0, cy - w, 0, cy + w, [
    { at: 0, colour: '#ffffff', opacity: 0.5 },
    { at: 0.35, colour: '#ffffff', opacity: 0 },
    { at: 1, colour: '#000000', opacity: 0.55 },
  ]);
  const [left, top] = place(at, [x - half, middle + r]);
  return (
    slab(sheet, at, roll, '#efe4d2', 0.4) +
    stripes.join('') +
    `<rect x="${px(left)}" y="${px(top)}" width="${px(2 * half * at.scale)}" height="${px(2 * w)}" fill="${round}"/>` +
    turns.join('')
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
  hamper,
  'roof rack': rack,
  'roof sign': sign,
  'roof cornet': cornet,
  'milk crates': crates,
};
