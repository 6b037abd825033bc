import { type Random, randomFrom } from '../random.ts';
import { deepen, mix, shade } from './colour-mixing.ts';
import { baseTint, bodyColour } from './finish.ts';
import { closed, type PathPoint, type Placing, type Point, place, px, rounded } from './geometry.ts';
import { lettering } from './lettering.ts';
import { shapeOf } from './shapes/index.ts';
import type { Shape } from './shapes/shape.ts';
import { fill, group, line, type Sheet } from './sheet.ts';
import type { CarSpec } from './spec.ts';
import { flatShadow, type Paper } from './studio.ts';

interface BaseDrawing {
  sheet: Sheet;
  spec: CarSpec;
  shape: Shape;
  /** `ground` is the line along the middle of the car. */
  at: Placing;
  random: Random;
  /** Half the width of body and base, and how far out the wheels stand. */
  half: number;
  wheels: number;
}

const narrow = ['single-seater', 'open rod'];

/** The car on its back: the base with its lettering, posts and axles. */
export const drawBase = (sheet: Sheet, spec: CarSpec, at: Placing, paper: Paper): string => {
  const slim = narrow.includes(spec.body);
  const drawing: BaseDrawing = {
    sheet,
    spec,
    shape: shapeOf(spec),
    at,
    random: randomFrom(`base ${spec.seed}`),
    half: slim ? 9.5 : spec.body === 'wedge prototype' || spec.body === 'bubble-top' ? 20.6 : 19,
    wheels: slim ? 19.5 : 18.6,
  };
  return group(
    flatShadow(paper, outlinePath(drawing, 0)) +
      tyres(drawing) +
      bodyRim(drawing) +
      plate(drawing) +
      wells(drawing) +
      axleWires(drawing) +
      posts(drawing) +
      scratches(drawing),
  );
};

/** Outline of the car in plan, pulled in by `inset`. */
const plan = ({ half, spec, shape }: BaseDrawing, inset: number): PathPoint[] => {
  const x0 = shape.outline[0]![0] - 0.4 + inset;
  const x1 = shape.outline.at(-1)![0] + 0.6 - inset;
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

/** Small facets of tumbled zinc. */
const tumble = ({ at, random, half, spec }: BaseDrawing): string =>
  spec.year >= 1974
    ? ''
    : Array.from({ length: 140 }, () => {
        const [x, y] = place(at, [random.between(2, 98), random.between(-half, half)]);
        const angle = random.between(0, Math.PI);
        const r = random.between(2, 9);
        return line(
          `M${px(x)} ${px(y)}l${px(r * Math.cos(angle))} ${px(r * Math.sin(angle))}`,
          random.chance(0.5) ? '#ffffff' : '#000000',
          random.between(0.6, 1.3),
          random.between(0.04, 0.16),
        );
      }).join('');

/** A raised line or shape: light on the side of the lamp, dark on the other. */
const raised = (d: string, wide: number, colour: string, strength = 1): string =>
  group(
    line(d, '#000000', wide, 0.55 * strength),
    `transform="translate(${px(wide * 0.34)} ${px(wide * 0.42)})"`,
  ) +
  group(
    line(d, '#ffffff', wide, 0.75 * strength),
    `transform="translate(${px(-wide * 0.26)} ${px(-wide * 0.32)})"`,
  ) +
  line(d, colour, wide, 0.9);

const metalAt = ({ spec }: BaseDrawing, x: number): string => {
  const bare = spec.year >= 1974 ? '#353638' : '#b9bbbb';
  const tint = baseTint(spec);
  const here =
    spec.basePaint === 'full' ||
    (spec.basePaint === 'front quarter' && x < 27) ||
    (spec.basePaint === 'rear quarter' && x > 73);
  return here ? tint : bare;
};

/** Sump, shaft, exhaust and springs, as a toy's base suggests them. */
const relief = (drawing: BaseDrawing): string => {
  const { at, shape, half } = drawing;
  const [front, rear] = shape.axles;
  const w = half * 0.62;
  const wide = at.scale * 0.42;
  const box = (x0: number, x1: number, y: number, x: number): string =>
    raised(
      rounded(
        at,
        [
          [x0, y],
          [x1, y],
          [x1, -y],
          [x0, -y],
        ],
        1.2,
      ),
      wide,
      metalAt(drawing, x),
      0.8,
    );
  const strip = (points: Point[]): string =>
    raised(
      points.map((point, i) => `${i === 0 ? 'M' : 'L'}${place(at, point).map(px).join(' ')}`).join(''),
      at.scale * 0.8,
      metalAt(drawing, points[0]![0]),
      0.8,
    );
  return (
    box(4.5, front - 9.4, half * 0.34, 8) +
    box(front + 9.6, rear - 10, w, 50) +
    box(rear + 9.4, 96, half * 0.36, 90) +
    strip([
      [front + 10, w + 2.2],
      [rear - 9, w + 2.2],
    ]) +
    strip([
      [front + 10, -w - 2.2],
      [rear - 9, -w - 2.2],
    ])
  );
};

const text = (drawing: BaseDrawing): string => {
  const { at, spec, shape, half } = drawing;
  const [front, rear] = shape.axles;
  const middle = (front + rear) / 2;
  const [x, y] = place(at, [middle, 0]);
  const room = (rear - front - 22) * at.scale;
  const lines: [text: string, size: number][] = [
    ['QUILLON TOYS', 3],
    [spec.casting, 2.4],
    [`WRENMOOR ${spec.year}`, 1.9],
    [`MADE IN ${spec.country}`, 1.9],
  ];
  const scale = Math.min(1, half / 17) * at.scale;
  const total = lines.reduce((sum, [, size]) => sum + size * 1.62, 0) * scale;
  let top = y - total / 2;
  return lines
    .map(([words, size]) => {
      const letters = words.length * 0.95 * size * scale;
      const own = size * scale * Math.min(1, room / letters);
      const d = lettering(words, x, top, own);
      top += size * 1.62 * scale;
      return raised(d, own * 0.17, mix(metalAt(drawing, middle), '#ffffff', 0.12));
    })
    .join('');
};

/** White bloom and grime of a base that lay in the damp. */
const bloom = ({ at, random, spec, half }: BaseDrawing): string => {
  const count = spec.finishState === 'restored' ? 0 : Math.round(Math.max(0, 7 - spec.grade) * 7);
  return Array.from({ length: count }, () => {
    const [x, y] = place(at, [random.between(3, 97), random.between(-half, half)]);
    const r = random.between(4, 26);
    return `<ellipse cx="${px(x)}" cy="${px(y)}" rx="${px(r)}" ry="${px(r * random.between(0.4, 0.9))}" fill="${random.chance(0.55) ? '#e9e7e0' : '#4e4538'}" fill-opacity="${px(random.between(0.06, 0.2))}"/>`;
  }).join('');
};

const wells = ({ at, shape, half, spec }: BaseDrawing): string =>
  narrow.includes(spec.body)
    ? ''
    : shape.axles
        .flatMap((x, i) =>
          [1, -1].map(sign => {
            const r = shape.radii[i]! + 0.9;
            return fill(
              rounded(
                at,
                [
                  [x - r, sign * (half - 0.2)],
                  [x + r, sign * (half - 0.2)],
                  [x + r, sign * (half - 7.6)],
                  [x - r, sign * (half - 7.6)],
                ],
                1,
              ),
              '#0c0c0d',
            );
          }),
        )
        .join('') + innerTyres({ at, shape, half, spec });

/** Tyres in their wells, seen from below. */
const innerTyres = ({ at, shape, half, spec }: Pick<BaseDrawing, 'at' | 'shape' | 'half' | 'spec'>): string =>
  shape.axles
    .flatMap((x, i) =>
      [1, -1].map(sign => {
        if (i === 1 && sign === 1 && spec.missing.includes('wheels')) return '';
        return tyre(at, x, shape.radii[i]!, sign * (half - 3.2), 5.6);
      }),
    )
    .join('');

const tyre = (at: Placing, x: number, r: number, y: number, wide: number): string => {
  const [x0, y0] = place(at, [x - r, y + wide / 2]);
  const [x1, y1] = place(at, [x + r, y - wide / 2]);
  const w = x1 - x0;
  const h = y1 - y0;
  const bands = [0.14, 0.3, 0.5, 0.7, 0.86]
    .map(t =>
      line(
        `M${px(x0 + w * t)} ${px(y0 + 2)}v${px(h - 4)}`,
        t === 0.5 ? '#5a5a5a' : '#000000',
        w * 0.05,
        t === 0.5 ? 0.5 : 0.35,
      ),
    )
    .join('');
  return `<rect x="${px(x0)}" y="${px(y0)}" width="${px(w)}" height="${px(h)}" rx="${px(h * 0.16)}" fill="#232324"/>${bands}<rect x="${px(x0)}" y="${px(y0)}" width="${px(w)}" height="${px(h * 0.22)}" rx="${px(h * 0.1)}" fill="#ffffff" fill-opacity="0.12"/>`;
};

/** Wheels that stand free of the body. */
const tyres = ({ at, shape, spec, wheels }: BaseDrawing): string =>
  narrow.includes(spec.body)
    ? shape.axles
        .flatMap((x, i) =>
          [1, -1].map(sign => tyre(at, x, shape.radii[i]!, sign * wheels, i === 0 ? 6 : 8.4)),
        )
        .join('')
    : '';

const axleWires = ({ sheet, at, shape, half, wheels, spec }: BaseDrawing): string => {
  const reach = narrow.includes(spec.body) ? wheels - 3 : half - 6.4;
  return shape.axles
    .map(x => {
      const bent = spec.grade < 3.5 && spec.finishState !== 'restored' ? 0.8 : 0;
      const [cx, y0] = place(at, [x, reach]);
      const [, y1] = place(at, [x, -reach]);
      const bend = bent * at.scale;
      const d = `M${px(cx)} ${px(y0)}Q${px(cx + bend * 2)} ${px((y0 + y1) / 2)} ${px(cx)} ${px(y1)}`;
      const wide = at.scale * 1.15;
      const steel = sheet.linear(cx - wide / 2, 0, cx + wide / 2, 0, [
        { at: 0, colour: '#5c5c5c' },
        { at: 0.35, colour: '#f5f5f3' },
        { at: 0.7, colour: '#9b9a97' },
        { at: 1, colour: '#3c3b39' },
      ]);
      const clips = [0.46, -0.46]
        .map(t => {
          const [kx, ky] = place(at, [x, reach * t]);
          return `<rect x="${px(kx - at.scale * 1.5)}" y="${px(ky - at.scale * 0.8)}" width="${px(at.scale * 3)}" height="${px(at.scale * 1.6)}" rx="3" fill="${deepen(spec.year >= 1974 ? '#303133' : '#b9bbbb', 0.85)}" stroke="#000000" stroke-opacity="0.5"/>`;
        })
        .join('');
      return line(d, '#0a0a0a', wide * 1.9, 0.55) + line(d, steel, wide) + clips;
    })
    .join('');
};

/** The two posts: peened over at the works, or drilled and closed with a screw. */
const posts = ({ sheet, at, shape, spec }: BaseDrawing): string => {
  const opened =
    spec.finishState === 'restored' || spec.finishState === 'customised' || spec.finishState === 'stripped';
  return [Math.max(6.5, shape.axles[0] - 11.5), Math.min(94, shape.axles[1] + 12)]
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

const scratches = ({ at, random, spec, half }: BaseDrawing): string => {
  const count = spec.finishState === 'restored' ? 2 : Math.round((10 - spec.grade) * 5);
  return Array.from({ length: count }, () => {
    const [x, y] = place(at, [random.between(8, 92), random.between(-half * 0.9, half * 0.9)]);
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
