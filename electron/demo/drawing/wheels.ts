import { type Placing, place, px } from './geometry.ts';
import { fill, group, line, type Sheet } from './sheet.ts';

/** One wheel from its side. */
export interface WheelSpec {
  x: number;
  y: number;
  /** Radius of the tyre in pixels. */
  r: number;
  kind: string;
  /** 1 bright plating … 0 plating gone. */
  bright: number;
  /** A reproduction's hub is brighter and flatter than the plated original. */
  reproduction: boolean;
  turn: number;
}

const ring = (x: number, y: number, r: number): string =>
  `M${px(x - r)} ${px(y)}A${px(r)} ${px(r)} 0 1 0 ${px(x + r)} ${px(y)}A${px(r)} ${px(r)} 0 1 0 ${px(x - r)} ${px(y)}Z`;

const polar = (x: number, y: number, r: number, angle: number): string =>
  `${px(x + r * Math.cos(angle))} ${px(y + r * Math.sin(angle))}`;

/** Tyre, rim and hub, lit from above. */
export const drawWheel = (sheet: Sheet, wheel: WheelSpec): string => {
  const { x, y, r, bright } = wheel;
  const tyre = sheet.radial(x, y - r * 0.1, r * 1.06, [
    { at: 0, colour: '#151516' },
    { at: 0.62, colour: '#1b1b1c' },
    { at: 0.8, colour: '#343436' },
    { at: 0.9, colour: '#2a2a2b' },
    { at: 1, colour: '#0c0c0d' },
  ]);
  const top = sheet.linear(0, y - r, 0, y + r, [
    { at: 0, colour: '#ffffff', opacity: 0.34 },
    { at: 0.2, colour: '#ffffff', opacity: 0.06 },
    { at: 0.55, colour: '#000000', opacity: 0 },
    { at: 1, colour: '#000000', opacity: 0.6 },
  ]);
  const rim = r * 0.64;
  return group(
    [
      fill(ring(x, y, r), tyre),
      fill(ring(x, y, r), top),
      line(ring(x, y, r * 0.83), '#000000', r * 0.02, 0.55),
      line(ring(x, y, r * 0.86), '#6f6f70', r * 0.012, 0.35),
      hub(sheet, wheel, rim),
      // The tyre's inner edge stands proud of the rim and throws a shadow on it.
      line(ring(x, y, rim + r * 0.012), '#000000', r * 0.05, 0.75),
      `<path d="M${polar(x, y, r * 0.93, -2.3)}A${px(r * 0.93)} ${px(r * 0.93)} 0 0 1 ${polar(x, y, r * 0.93, -0.9)}" fill="none" stroke="#ffffff" stroke-width="${px(r * 0.035)}" stroke-linecap="round" stroke-opacity="${px(0.14 + 0.1 * bright)}"/>`,
    ].join(''),
  );
};

/** Metal of a plated hub: sky above, a dark horizon, the table below. */
const plating = (sheet: Sheet, { y, bright, reproduction }: WheelSpec, rim: number): string => {
  const dull = (colour: string, worn: string) => (bright > 0.55 ? colour : worn);
  return sheet.linear(
    0,
    y - rim,
    0,
    y + rim,
    reproduction
      ? [
          { at: 0, colour: '#fbfcfc' },
          { at: 0.5, colour: '#cfd3d4' },
          { at: 1, colour: '#9ba0a2' },
        ]
      : [
          { at: 0, colour: dull('#ffffff', '#c9c6bf') },
          { at: 0.3, colour: dull('#d6dcdf', '#aaa79f') },
          { at: 0.49, colour: dull('#8d979c', '#85827b') },
          { at: 0.55, colour: dull('#4c5459', '#6b6862') },
          { at: 0.68, colour: dull('#a8a59d', '#8d8a82') },
          { at: 0.86, colour: dull('#ece8dd', '#a29e94') },
          { at: 1, colour: dull('#77797a', '#6d6a64') },
        ],
  );
};

const hub = (sheet: Sheet, wheel: WheelSpec, rim: number): string => {
  const { x, y, kind } = wheel;
  const metal = plating(sheet, wheel, rim);
  const well = sheet.radial(x, y + rim * 0.25, rim * 1.15, [
    { at: 0, colour: '#39393b' },
    { at: 0.75, colour: '#19191a' },
    { at: 1, colour: '#0b0b0c' },
  ]);
  const lip =
    fill(ring(x, y, rim), metal) +
    fill(ring(x, y, rim * 0.86), well) +
    line(ring(x, y, rim * 0.93), '#ffffff', rim * 0.03, 0.5);
  const cap =
    fill(ring(x, y, rim * 0.2), metal) +
    line(ring(x, y, rim * 0.2), '#26282a', rim * 0.03, 0.7) +
    fill(ring(x, y, rim * 0.085), '#3d3f41') +
    fill(ring(x - rim * 0.02, y - rim * 0.025, rim * 0.045), '#c9cccc');
  switch (kind) {
    case 'six-hole disc':
      return lip + fill(ring(x, y, rim * 0.86), metal) + windows(sheet, wheel, rim) + cap;
    case 'slotted plate':
      return lip + fill(ring(x, y, rim * 0.86), metal) + slots(wheel, rim) + cap;
    case 'pierced disc':
      return lip + fill(ring(x, y, rim * 0.86), metal) + holes(wheel, rim) + cap;
    case 'wire':
      return lip + wires(wheel, rim) + fill(ring(x, y, rim * 0.26), metal) + cap;
    default:
      return (
        fill(ring(x, y, rim), metal) +
        fill(
          ring(x, y, rim * 0.8),
          sheet.linear(0, y - rim * 0.8, 0, y + rim * 0.8, [
            { at: 0, colour: '#5d6367' },
            { at: 0.4, colour: '#aab0b3' },
            { at: 0.7, colour: '#e6e6e2' },
            { at: 1, colour: '#ffffff' },
          ]),
        ) +
        fill(
          ring(x, y, rim * 0.5),
          sheet.radial(x - rim * 0.12, y - rim * 0.16, rim * 0.62, [
            { at: 0, colour: '#ffffff' },
            { at: 0.4, colour: '#c9cfd2' },
            { at: 1, colour: '#5b6165' },
          ]),
        ) +
        line(ring(x, y, rim * 0.8), '#2b2d2f', rim * 0.03, 0.5) +
        cap
      );
  }
};

/** Six round windows in a plate that rises toward its middle; the lower edge of each catches the light. */
const windows = (sheet: Sheet, { x, y, turn, bright }: WheelSpec, rim: number): string => {
  const dish = sheet.radial(x, y - rim * 0.1, rim * 0.9, [
    { at: 0, colour: '#ffffff', opacity: 0.55 },
    { at: 0.42, colour: '#ffffff', opacity: 0.1 },
    { at: 0.8, colour: '#000000', opacity: 0.12 },
    { at: 1, colour: '#000000', opacity: 0.42 },
  ]);
  const r = rim * 0.185;
  const holes = Array.from({ length: 6 }, (_, i) => {
    const angle = turn + (i * Math.PI) / 3;
    const [cx, cy] = [x + rim * 0.54 * Math.cos(angle), y + rim * 0.54 * Math.sin(angle)];
    return (
      fill(ring(cx, cy + rim * 0.025, r * 1.1), '#ffffff', 0.35 + 0.4 * bright) +
      fill(ring(cx, cy, r), '#0f1011') +
      line(ring(cx, cy, r), '#2b2d2f', rim * 0.025, 0.8)
    );
  });
  return fill(ring(x, y, rim * 0.86), dish) + holes.join('');
};

const slots = ({ x, y, turn }: WheelSpec, rim: number): string =>
  Array.from({ length: 8 }, (_, i) => {
    const angle = turn + (i * Math.PI) / 4;
    const d = `M${polar(x, y, rim * 0.4, angle - 0.13)}L${polar(x, y, rim * 0.74, angle - 0.17)}A${px(rim * 0.74)} ${px(rim * 0.74)} 0 0 1 ${polar(x, y, rim * 0.74, angle + 0.17)}L${polar(x, y, rim * 0.4, angle + 0.13)}Z`;
    return fill(d, '#131415') + line(d, '#ffffff', rim * 0.02, 0.35);
  }).join('');

const holes = ({ x, y, turn }: WheelSpec, rim: number): string =>
  Array.from({ length: 12 }, (_, i) => {
    const angle = turn + (i * Math.PI) / 6;
    const [cx, cy] = [x + rim * 0.66 * Math.cos(angle), y + rim * 0.66 * Math.sin(angle)];
    return (
      fill(ring(cx, cy, rim * 0.085), '#ffffff', 0.45) +
      fill(ring(cx, cy - rim * 0.012, rim * 0.075), '#121314')
    );
  }).join('');

const wires = ({ x, y, turn }: WheelSpec, rim: number): string => {
  const count = 20;
  const d = Array.from({ length: count }, (_, i) => {
    const angle = turn + (i * 2 * Math.PI) / count;
    const lean = i % 2 === 0 ? 0.42 : -0.42;
    return `M${polar(x, y, rim * 0.22, angle + lean)}L${polar(x, y, rim * 0.87, angle)}`;
  }).join('');
  return line(d, '#050505', rim * 0.05, 0.6) + line(d, '#dfe3e4', rim * 0.028, 0.95);
};

/** A wheel of the far side, of which only the dark tyre shows under the car. */
export const drawFarWheel = (sheet: Sheet, at: Placing, x: number, r: number): string => {
  const [cx, cy] = place(at, [x, r + 0.75]);
  const radius = r * at.scale;
  return fill(
    ring(cx, cy, radius),
    sheet.linear(0, cy, 0, cy + radius, [
      { at: 0, colour: '#060606' },
      { at: 0.8, colour: '#151515' },
      { at: 1, colour: '#1d1c1b' },
    ]),
  );
};

/** The end of an axle whose wheel is gone, before the inner face of the wheel on the far side. */
export const drawAxleEnd = (sheet: Sheet, at: Placing, x: number, y: number, r: number): string => {
  const pin = at.scale * 0.75;
  const steel = sheet.radial(x - pin * 0.3, y - pin * 0.4, pin * 1.6, [
    { at: 0, colour: '#f2f2f0' },
    { at: 0.5, colour: '#9c9a95' },
    { at: 1, colour: '#4b4741' },
  ]);
  const far = y - at.scale * 0.7;
  const inner = sheet.radial(x, far, r, [
    { at: 0, colour: '#3a3b3d' },
    { at: 0.55, colour: '#2a2b2c' },
    { at: 0.6, colour: '#161617' },
    { at: 0.92, colour: '#232324' },
    { at: 1, colour: '#101011' },
  ]);
  return (
    fill(ring(x + at.scale * 1.2, far, r), inner) +
    line(ring(x + at.scale * 1.2, far, r * 0.62), '#54565a', 2, 0.6) +
    line(`M${px(x)} ${px(y)}l${px(at.scale * 1.2)} ${px(far - y)}`, '#77797b', pin * 1.5) +
    fill(ring(x, y, pin), steel) +
    line(ring(x, y, pin), '#1c1b1a', 1, 0.7)
  );
};
