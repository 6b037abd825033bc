import { randomFrom } from '../../random.ts';
import { closed, type PathPoint, type Placing, place, px } from '../geometry.ts';
import { shapeOf } from '../shapes/index.ts';
import type { Shape } from '../shapes/shape.ts';
import { fill, group, line, type Sheet } from '../sheet.ts';
import type { CarSpec } from '../spec.ts';
import { flatShadow, type Paper } from '../studio.ts';
import { deepen, shade } from '../surface/colour-mixing.ts';
import { baseTint, bodyColour } from '../surface/finish.ts';
import { type BaseDrawing, narrow } from './base-drawing.ts';
import { bloom, relief, text, tumble } from './base-relief.ts';
import { axleWires, tyreOutlines, tyres, wells } from './base-wheels.ts';

const drawingOf = (sheet: Sheet, spec: CarSpec, at: Placing): BaseDrawing => {
  const slim = narrow.includes(spec.body);
  return {
    sheet,
    spec,
    shape: shapeOf(spec),
    at,
    random: randomFrom(`base ${spec.seed}`),
    half: slim ? 9.5 : spec.body === 'wedge prototype' || spec.body === 'bubble-top' ? 20.6 : 19,
    wheels: slim ? 19.5 : 18.6,
  };
};

/** The shadow under the car on its back. */
export const drawBaseShadow = (sheet: Sheet, spec: CarSpec, at: Placing, paper: Paper): string => {
  const drawing = drawingOf(sheet, spec, at);
  return flatShadow(sheet, paper, outlinePath(drawing, 0) + tyreOutlines(drawing));
};

/** The car on its back: the base with its lettering, posts and axles. */
export const drawBase = (sheet: Sheet, spec: CarSpec, at: Placing): string => {
  const drawing = drawingOf(sheet, spec, at);
  return group(
    tyres(drawing) +
      bodyRim(drawing) +
      plate(drawing) +
      wells(drawing) +
      axleWires(drawing) +
      posts(drawing) +
      scratches(drawing),
  );
};

/** Where the base begins and ends; a rod's runs under its engine to the front axle. */
const ends = (spec: CarSpec, shape: Shape): [front: number, rear: number] => [
  spec.body === 'open rod' ? shape.axles[0] - 5.4 : shape.outline[0]![0],
  shape.outline.at(-1)![0],
];

/** Outline of the car in plan, pulled in by `inset`. */
const plan = ({ half, spec, shape }: BaseDrawing, inset: number): PathPoint[] => {
  const [front, rear] = ends(spec, shape);
  const x0 = front - 0.4 + inset;
  const x1 = rear + 0.6 - inset;
  const w = half - inset;
  const pointed =
    spec.body === 'single-seater' || spec.body === 'wedge prototype' || spec.body === 'bubble-top';
  const nose = pointed ? 0.5 : 0.78;
  const tail = spec.rearEnd === 'boat tail' ? 0.4 : 0.84;
  const side = (sign: 1 | -1): PathPoint[] => [
    [x0 + 0.2, sign * w * nose * 0.6],
    [x0 + 3.4, sign * w * (nose + 0.1)],
    [x0 + 14, sign * w * 0.985],
    [(x0 + x1) / 2, sign * w],
    [x1 - 12, sign * w * 0.99],
    [x1 - 2.6, sign * w * tail],
    [x1, sign * w * tail * 0.66],
  ];
  return [[x0 - 0.5, 0], ...side(1), [x1 + 0.35, 0], ...side(-1).reverse(), [x0 - 0.5, 0]];
};

const outlinePath = (drawing: BaseDrawing, inset: number): string =>
  `${closed(drawing.at, plan(drawing, inset))}`;

/** The edge of the painted body that shows around the base. */
const bodyRim = (drawing: BaseDrawing): string => {
  const { sheet, at, spec, half } = drawing;
  const colour = bodyColour(spec);
  const [, y0] = place(at, [0, half]);
  const [, y1] = place(at, [0, -half]);
  const paint = sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: shade(colour, 0.22, 0.85) },
    { at: 0.04, colour },
    { at: 0.5, colour: deepen(colour, 0.6) },
    { at: 0.96, colour: deepen(colour, 0.5) },
    { at: 1, colour: deepen(colour, 0.24) },
  ]);
  const d = outlinePath(drawing, 0);
  return fill(d, paint) + line(d, deepen(colour, 0.2), 1.4, 0.6);
};

const plate = (drawing: BaseDrawing): string => {
  const { sheet, at, spec, half } = drawing;
  if (spec.missing.includes('base')) return fill(outlinePath(drawing, 1.7), '#17181a');
  const plastic = spec.year >= 1974;
  const worn = spec.grade < 5;
  const bare = plastic ? '#303133' : worn ? '#a9aaa7' : '#bfc1c1';
  const tint = deepen(baseTint(spec), 0.9, 1.1);
  const d = outlinePath(drawing, 1.7);
  const clip = sheet.clip(d);
  const [x0, y0] = place(at, [0, half]);
  const [x1, y1] = place(at, [100, -half]);
  const quarter = (from: number, to: number) => {
    const [qx] = place(at, [from, 0]);
    const [qx1] = place(at, [to, 0]);
    return fill(`M${px(qx)} ${px(y0)}H${px(qx1)}V${px(y1)}H${px(qx)}Z`, tint, 0.93);
  };
  const painted = {
    none: '',
    full: quarter(-3, 103),
    'front quarter': quarter(-3, 27) + ragged(drawing, 27, tint),
    'rear quarter': quarter(73, 103) + ragged(drawing, 73, tint),
  }[spec.basePaint];
  const light = sheet.linear(x0, y0, x0 + (x1 - x0) * 0.25, y1, [
    { at: 0, colour: '#ffffff', opacity: plastic ? 0.2 : spec.basePaint === 'full' ? 0.24 : 0.36 },
    { at: 0.3, colour: '#ffffff', opacity: plastic ? 0.04 : 0.1 },
    { at: 0.55, colour: '#000000', opacity: 0.04 },
    { at: 0.75, colour: '#ffffff', opacity: plastic ? 0.06 : 0.16 },
    { at: 1, colour: '#000000', opacity: 0.26 },
  ]);
  return (
    line(d, '#0c0c0c', at.scale * 0.5, 0.8) +
    group(
      fill(d, bare) +
        painted +
        fill(d, light) +
        tumble(drawing) +
        relief(drawing) +
        text(drawing) +
        bloom(drawing),
      `clip-path="${clip}"`,
    ) +
    line(d, '#ffffff', 1.4, plastic ? 0.2 : 0.55)
  );
};

/** Where the tint ends it does so as a spray gun leaves it. */
const ragged = ({ at, random, half }: BaseDrawing, x: number, tint: string): string =>
  Array.from({ length: 60 }, () => {
    const [cx, cy] = place(at, [x + random.normal(0, 0.9), random.between(-half, half)]);
    return `<circle cx="${px(cx)}" cy="${px(cy)}" r="${px(random.between(0.8, 3.4))}" fill="${tint}" fill-opacity="${px(random.between(0.25, 0.6))}"/>`;
  }).join('');

/** The two posts: peened over at the works, or drilled and closed with a screw. */
const posts = ({ sheet, at, shape, spec }: BaseDrawing): string => {
  const opened =
    spec.finishState === 'restored' || spec.finishState === 'customised' || spec.finishState === 'stripped';
  const [front, rear] = ends(spec, shape);
  return [Math.max(front + 4.6, shape.axles[0] - 11.5), Math.min(rear - 4.4, shape.axles[1] + 12)]
    .map(x => {
      const [cx, cy] = place(at, [x, 0]);
      const r = at.scale * 1.75;
      const head = sheet.radial(cx - r * 0.35, cy - r * 0.4, r * 1.7, [
        { at: 0, colour: '#ffffff' },
        { at: 0.4, colour: '#c4c6c6' },
        { at: 1, colour: '#54575a' },
      ]);
      const circle = (radius: number, paint: string, extra = '') =>
        `<circle cx="${px(cx)}" cy="${px(cy)}" r="${px(radius)}" fill="${paint}" ${extra}/>`;
      const slot = `M${px(cx - r * 0.62)} ${px(cy + r * 0.3)}L${px(cx + r * 0.62)} ${px(cy - r * 0.3)}M${px(cx - r * 0.3)} ${px(cy - r * 0.62)}L${px(cx + r * 0.3)} ${px(cy + r * 0.62)}`;
      return (
        circle(r * 1.3, '#000000', 'fill-opacity="0.35"') +
        circle(r, head) +
        (opened
          ? line(slot, '#1b1c1d', r * 0.24, 0.9)
          : circle(r * 0.5, '#85888a', 'fill-opacity="0.55"') + circle(r * 0.32, '#d9dada'))
      );
    })
    .join('');
};

const scratches = ({ at, random, spec, shape, half }: BaseDrawing): string => {
  const [front, rear] = ends(spec, shape);
  const count = spec.finishState === 'restored' ? 2 : Math.round((10 - spec.grade) * 5);
  return Array.from({ length: count }, () => {
    const [x, y] = place(at, [random.between(front + 3, rear - 9), random.between(-half * 0.9, half * 0.9)]);
    const long = random.between(14, 80);
    const slope = random.normal(0, 0.25);
    return line(
      `M${px(x)} ${px(y)}l${px(long)} ${px(long * slope)}`,
      '#ffffff',
      random.between(0.7, 1.4),
      random.between(0.12, 0.4),
    );
  }).join('');
};
