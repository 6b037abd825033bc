import { type Random, randomFrom } from '../random.ts';
import { px } from './geometry.ts';
import { fill, group, line, type Sheet } from './sheet.ts';
import { drawSide } from './side/side-view.ts';
import type { CarSpec } from './spec.ts';
import { canvas } from './studio.ts';

/** Woods of the shelves, one for each lot's photograph. */
const woods = [
  { back: '#7d6248', board: '#a98460', dark: '#2b1f14' },
  { back: '#4c5157', board: '#8a8f94', dark: '#17191c' },
  { back: '#8a6f4e', board: '#bd9a6d', dark: '#33260f' },
  { back: '#6c6f60', board: '#9a9c88', dark: '#202218' },
  { back: '#6e5647', board: '#9c7a62', dark: '#261a12' },
];

/** The cars of a lot side by side on shelves. */
export const drawLot = (sheet: Sheet, cars: readonly CarSpec[], seed: string, paper: number): string => {
  const random = randomFrom(`shelf ${seed}`);
  const wood = woods[paper % woods.length]!;
  const rows = cars.length > 12 ? 4 : 3;
  const columns = Math.ceil(cars.length / rows);
  const tall = canvas.height / rows;
  const wide = (canvas.width - 50) / columns;
  const pixelsPerMm = Math.min((wide * 0.98) / 77, (tall * 0.7) / 29);
  const shelves = Array.from({ length: rows }, (_, row) => {
    const floor = (row + 1) * tall - 20;
    const here = cars.slice(row * columns, (row + 1) * columns);
    const gap = (canvas.width - 50) / Math.max(here.length, columns - 1);
    const standing = here.map((spec, i) => {
      const length = spec.lengthMm * pixelsPerMm;
      const middle = 25 + gap * (i + 0.5) + random.between(-0.04, 0.04) * wide;
      const at = { left: middle - length / 2, ground: floor + random.between(1, 5), scale: length / 100 };
      return shade(sheet, middle, at.ground, length, wood.dark) + drawSide(sheet, spec, at);
    });
    return shelf(sheet, random, wood, row * tall, floor, tall) + standing.join('');
  });
  return shelves.join('') + vignette(sheet, wood.dark);
};

const shelf = (
  sheet: Sheet,
  random: Random,
  wood: (typeof woods)[number],
  top: number,
  floor: number,
  tall: number,
): string => {
  const back = sheet.linear(0, top, 0, floor, [
    { at: 0, colour: wood.dark },
    { at: 0.16, colour: wood.back },
    { at: 0.8, colour: wood.back },
    { at: 1, colour: wood.dark, opacity: 0.85 },
  ]);
  const light = sheet.radial(
    canvas.width * 0.45,
    top + tall * 0.45,
    canvas.width * 0.62,
    [
      { at: 0, colour: '#ffffff', opacity: 0.3 },
      { at: 0.6, colour: '#ffffff', opacity: 0.06 },
      { at: 1, colour: '#000000', opacity: 0.3 },
    ],
    0.3,
  );
  const face = sheet.linear(0, floor, 0, floor + 20, [
    { at: 0, colour: '#ffffff' },
    { at: 0.1, colour: wood.board },
    { at: 0.55, colour: wood.board },
    { at: 1, colour: wood.dark },
  ]);
  const box = (y0: number, y1: number) => `M0 ${px(y0)}H${canvas.width}V${px(y1)}H0Z`;
  const grain = Array.from({ length: 26 }, () => {
    const y = random.between(top + 6, floor - 4);
    const x = random.between(-100, canvas.width);
    const long = random.between(160, 620);
    return line(
      `M${px(x)} ${px(y)}q${px(long / 2)} ${px(random.normal(0, 4))} ${px(long)} ${px(random.normal(0, 3))}`,
      wood.dark,
      random.between(0.6, 1.8),
      random.between(0.05, 0.16),
    );
  }).join('');
  const ledge = sheet.linear(0, floor - 16, 0, floor, [
    { at: 0, colour: wood.board, opacity: 0 },
    { at: 0.3, colour: wood.board, opacity: 0.55 },
    { at: 1, colour: wood.board },
  ]);
  return (
    fill(box(top, floor), wood.back) +
    fill(box(top, floor), back) +
    grain +
    fill(box(top, floor), light) +
    fill(box(floor - 16, floor), ledge) +
    fill(box(floor, floor + 20), face)
  );
};

const shade = (sheet: Sheet, x: number, ground: number, length: number, dark: string): string => {
  const rx = length * 0.56;
  const paint = sheet.radial(
    x,
    ground - 1,
    rx,
    [
      { at: 0, colour: dark, opacity: 0.9 },
      { at: 0.75, colour: dark, opacity: 0.7 },
      { at: 1, colour: dark, opacity: 0 },
    ],
    0.085,
  );
  return `<ellipse cx="${px(x)}" cy="${px(ground - 1)}" rx="${px(rx)}" ry="${px(rx * 0.085)}" fill="${paint}"/>`;
};

const vignette = (sheet: Sheet, dark: string): string =>
  group(
    fill(
      `M0 0H${canvas.width}V${canvas.height}H0Z`,
      sheet.radial(canvas.width / 2, canvas.height / 2, 820, [
        { at: 0.55, colour: dark, opacity: 0 },
        { at: 1, colour: dark, opacity: 0.5 },
      ]),
    ),
  );
