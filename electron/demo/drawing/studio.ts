import { px } from './geometry.ts';
import { fill, group, type Sheet } from './sheet.ts';
import { mix } from './surface/colour-mixing.ts';

/** Size of a drawn photograph in pixels. */
export const canvas = { width: 1200, height: 800 };

/** Paper that the cars are photographed on; each lot was photographed on its own sheet. */
export interface Paper {
  near: string;
  far: string;
  shadow: string;
}

/** The sheets of paper, one per lot. */
export const papers: Paper[] = [
  { near: '#cfc8bb', far: '#e9e5dc', shadow: '#4a4338' },
  { near: '#b9bdc0', far: '#dfe2e3', shadow: '#363c42' },
  { near: '#d3c7b2', far: '#ece4d5', shadow: '#4f4230' },
  { near: '#c3c6bd', far: '#e4e6df', shadow: '#3c4238' },
  { near: '#c9c0b6', far: '#e6dfd8', shadow: '#473d36' },
];

const whole = `M0 0H${canvas.width}V${canvas.height}H0Z`;

/** A sheet of paper curving up behind the car, lit from above. */
export const drawPaper = (sheet: Sheet, paper: Paper, ground: number): string => {
  const sweep = sheet.linear(0, 0, 0, canvas.height, [
    { at: 0, colour: paper.far },
    { at: (ground - 190) / canvas.height, colour: paper.far },
    { at: (ground - 40) / canvas.height, colour: paper.near },
    { at: (ground + 60) / canvas.height, colour: paper.near },
    { at: 1, colour: paper.far },
  ]);
  const pool = sheet.radial(
    canvas.width / 2,
    ground - 120,
    760,
    [
      { at: 0, colour: '#ffffff', opacity: 0.42 },
      { at: 0.55, colour: '#ffffff', opacity: 0.06 },
      { at: 1, colour: paper.shadow, opacity: 0.3 },
    ],
    0.72,
  );
  return fill(whole, sweep) + fill(whole, pool);
};

/** Soft shadow of the car, darkest where tyres meet the paper. */
export const drawShadow = (
  sheet: Sheet,
  paper: Paper,
  {
    left,
    right,
    ground,
    wheels,
  }: { left: number; right: number; ground: number; wheels: [x: number, r: number][] },
): string => {
  const middle = (left + right) / 2;
  const half = (right - left) / 2;
  const pool = (cx: number, cy: number, rx: number, ry: number, opacity: number, core = 0.35): string => {
    const paint = sheet.radial(
      cx,
      cy,
      rx,
      [
        { at: 0, colour: paper.shadow, opacity },
        { at: core, colour: paper.shadow, opacity: opacity * 0.86 },
        { at: (1 + core) / 2 - 0.06, colour: paper.shadow, opacity: opacity * 0.42 },
        { at: 0.9, colour: paper.shadow, opacity: opacity * 0.08 },
        { at: 1, colour: paper.shadow, opacity: 0 },
      ],
      ry / rx,
    );
    return `<ellipse cx="${px(cx)}" cy="${px(cy)}" rx="${px(rx)}" ry="${px(ry)}" fill="${paint}"/>`;
  };
  return (
    pool(middle, ground + 8, half * 1.25, 74, 0.4, 0.2) +
    pool(middle, ground - 3, half * 1.12, 34, 0.85, 0.4) +
    pool(middle, ground - 8, half * 0.92, 23, 0.75, 0.6) +
    wheels.map(([x, r]) => pool(x, ground + 1, r * 0.98, 10, 0.95, 0.55)).join('')
  );
};

/** Paper seen from above. */
export const drawFlatPaper = (sheet: Sheet, paper: Paper): string => {
  const pool = sheet.radial(520, 300, 900, [
    { at: 0, colour: '#ffffff', opacity: 0.4 },
    { at: 0.5, colour: '#ffffff', opacity: 0.1 },
    { at: 1, colour: paper.shadow, opacity: 0.28 },
  ]);
  return fill(whole, mix(paper.near, paper.far, 0.5)) + fill(whole, pool);
};

/** Soft shadow of a thing that lies flat on the paper, from its outlines. */
export const flatShadow = (sheet: Sheet, paper: Paper, outlines: string): string => {
  const soft = sheet.define(
    id =>
      `<filter id="${id}" x="-0.1" y="-0.2" width="1.2" height="1.4"><feGaussianBlur stdDeviation="15"/></filter>`,
  );
  const tight = sheet.define(
    id =>
      `<filter id="${id}" x="-0.1" y="-0.2" width="1.2" height="1.4"><feGaussianBlur stdDeviation="5"/></filter>`,
  );
  return (
    group(fill(outlines, paper.shadow, 0.8), `filter="${soft}" transform="translate(10 18)"`) +
    group(fill(outlines, paper.shadow, 0.7), `filter="${tight}" transform="translate(3 6)"`)
  );
};
