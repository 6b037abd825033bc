import { closed, type PathPoint, place, px } from '../geometry.ts';
import { fill, group, line, type Sheet } from '../sheet.ts';
import { deepen } from '../surface/colour-mixing.ts';
import { glazingTints, interiorColours, roofColour } from '../surface/finish.ts';
import { box, engine, slab, tube } from '../surface/metal-parts.ts';
import { pipe } from './side-base.ts';
import type { SideDrawing } from './side-drawing.ts';
import { drawSeats } from './side-glass.ts';

/** What stands behind the near flank of an open car: seats, the far bars of a cage, an engine. */
export const drawBehind = (sheet: Sheet, drawing: SideDrawing): string => {
  const { shape, at, spec } = drawing;
  if (shape.roof) return '';
  const seat = interiorColours[spec.interior] ?? '#2b2c2f';
  const seats = spec.missing.includes('interior') ? '' : drawSeats(sheet, shape, at, seat);
  switch (spec.body) {
    case 'single-seater':
      return suspension(drawing) + seats + rearEngine(sheet, drawing, 62, 11);
    case 'dune car':
      return cage(drawing, 1.4, '#77797a') + rearEngine(sheet, drawing, 84, 11) + seats;
    case 'open rod':
      return chassis(sheet, drawing) + seats;
    default:
      return seats;
  }
};

/** What stands before it: windscreen, cage, dome, canopy. */
export const drawBefore = (sheet: Sheet, drawing: SideDrawing): string => {
  const { shape, spec } = drawing;
  if (shape.roof) return '';
  switch (spec.body) {
    case 'roadster':
      return windscreen(drawing) + hood(sheet, drawing);
    case 'single-seater':
      return windscreen(drawing) + roundel(drawing) + pipes(sheet, drawing);
    case 'dune car':
      return windscreen(drawing) + cage(drawing, 0, '#c9cccd') + canopy(sheet, drawing);
    case 'open rod':
      return front(sheet, drawing) + windscreen(drawing) + canopy(sheet, drawing);
    case 'bubble-top':
      return dome(sheet, drawing);
    default:
      return '';
  }
};

/** A windscreen seen on edge: a sliver of glass in a bright frame. */
const windscreen = ({ shape, at, spec }: SideDrawing): string => {
  if (!shape.screen || spec.missing.includes('glazing')) return '';
  const { foot, head } = shape.screen;
  const tint = glazingTints[spec.glazing] ?? glazingTints.clear!;
  const pane: PathPoint[] = [
    [foot[0], foot[1], 'corner'],
    [head[0], head[1], 'corner'],
    [head[0] + 1.3, head[1] - 0.3, 'corner'],
    [foot[0] + 3.4, foot[1] - 0.2, 'corner'],
  ];
  return (
    fill(closed(at, pane), tint.colour, 0.55) +
    fill(closed(at, pane), '#ffffff', 0.28) +
    tube(
      at,
      [foot, head].map(([x, y]): PathPoint => [x, y, 'corner']),
      0.7,
      '#c4c8ca',
    )
  );
};

/** The folded top behind the seats. */
const hood = (sheet: Sheet, { shape, at, spec }: SideDrawing): string => {
  if (spec.roof !== 'folded top') return '';
  const [x, y] = shape.roofSpot;
  const cloth: PathPoint[] = [
    [x - 5.6, y - 0.4, 'corner'],
    [x - 4.8, y + 2.4],
    [x - 1, y + 3.6],
    [x + 5, y + 2.6],
    [x + 9, y + 0.2, 'corner'],
  ];
  const folds = [1.3, 2.3]
    .map(lift => {
      const [x0, y0] = place(at, [x - 4.6, y + lift]);
      const [x1, y1] = place(at, [x + 6.4, y + lift * 0.6]);
      return line(
        `M${px(x0)} ${px(y0)}Q${px((x0 + x1) / 2)} ${px(y0 - at.scale * 0.7)} ${px(x1)} ${px(y1)}`,
        '#000000',
        1.6,
        0.5,
      );
    })
    .join('');
  return slab(sheet, at, cloth, '#2b2a2b', 0.12) + folds;
};

const cage = ({ shape, at }: SideDrawing, shift: number, colour: string): string => {
  const head = shape.screen!.head;
  const top = 34.4;
  const hoop: PathPoint[] = [
    [66 + shift, 20],
    [63.5 + shift, 29],
    [61.4 + shift, top - 0.8],
    [59 + shift, top],
    [head[0] + 3 + shift, top],
    [head[0] + shift, top - 1],
    [head[0] - 2 + shift, head[1] - 4],
  ];
  const brace: PathPoint[] = [
    [61 + shift, top - 1, 'corner'],
    [79 + shift, 24, 'corner'],
  ];
  return tube(at, hoop, 1.05, colour) + tube(at, brace, 0.9, colour);
};

/** The white or black roof of a dune car or rod, on its bars. */
const canopy = (sheet: Sheet, { shape, at, spec }: SideDrawing): string => {
  const colour = roofColour(spec.roof);
  if (!colour) return '';
  const [x, y] = shape.roofSpot;
  const half = spec.body === 'open rod' ? 14.5 : 11.5;
  const panel: PathPoint[] = [
    [x - half, y - 1.6, 'corner'],
    [x - half + 1, y - 0.2],
    [x - half * 0.5, y + 1],
    [x + half * 0.5, y + 1],
    [x + half - 1, y - 0.2],
    [x + half, y - 2, 'corner'],
    [x, y - 1, 'corner'],
  ];
  const posts =
    spec.body === 'open rod'
      ? tube(
          at,
          [
            [x - half + 1.4, y - 1.4, 'corner'],
            [x - half + 0.2, y - 12.6, 'corner'],
          ],
          0.6,
        ) +
        tube(
          at,
          [
            [x + half - 2, y - 1.4, 'corner'],
            [x + half - 1.4, y - 12.4, 'corner'],
          ],
          0.6,
        )
      : '';
  return posts + slab(sheet, at, panel, colour, 0.5);
};

/** Arms and shafts that carry the free wheels. */
const suspension = ({ shape, at }: SideDrawing): string =>
  shape.axles
    .map((x, i) => {
      const r = shape.radii[i]!;
      const toward = i === 0 ? 7 : -7;
      return (
        tube(
          at,
          [
            [x, r + 0.8, 'corner'],
            [x + toward, r + 3.2, 'corner'],
          ],
          0.8,
        ) +
        tube(
          at,
          [
            [x, r - 0.6, 'corner'],
            [x + toward * 1.2, r - 1.2, 'corner'],
          ],
          0.8,
        )
      );
    })
    .join('');

const rearEngine = (sheet: Sheet, { shape, at, spec }: SideDrawing, x: number, y: number): string =>
  spec.rearEnd === 'open engine'
    ? engine(sheet, at, [x, y], spec.body === 'dune car' ? 12 : 14, spec.body === 'dune car' ? 11 : 10.5) +
      (shape.arches
        ? ''
        : tube(
            at,
            [
              [x + 3, y + 2],
              [x + 16, y + 0.6],
              [x + 30, y + 1.4],
            ],
            1.4,
          ))
    : '';

/** Exhausts along the flank of a racer. */
const pipes = (sheet: Sheet, drawing: SideDrawing): string => {
  if (drawing.spec.rearEnd !== 'twin pipes') return '';
  const { at } = drawing;
  return (
    tube(
      at,
      [
        [60, 11.6],
        [66, 10],
        [78, 9.4],
        [90, 9.8],
      ],
      1.5,
    ) +
    pipe(sheet, drawing, 89.5, 99, 9.8) +
    tube(
      at,
      [
        [62, 9.4],
        [68, 7.8],
        [80, 7.4],
        [90, 7.6],
      ],
      1.5,
    ) +
    pipe(sheet, drawing, 89.5, 98, 7.6)
  );
};

/** A paper roundel for a number that a child never wrote. */
const roundel = ({ shape, at, spec }: SideDrawing): string => {
  if (spec.missing.includes('labels') || spec.finishState === 'stripped') return '';
  const [x, y] = place(at, [33, shape.bonnetSpot[1] - 4.6]);
  const r = at.scale * 3;
  return `<circle cx="${px(x)}" cy="${px(y)}" r="${px(r)}" fill="${spec.grade < 6 ? '#d8cbab' : '#f1ece0'}" fill-opacity="0.94"/><circle cx="${px(x)}" cy="${px(y)}" r="${px(r)}" fill="none" stroke="#26221c" stroke-width="1.4" stroke-opacity="0.55"/>`;
};

/** Rails of a rod, from the front axle to the tail. */
const chassis = (sheet: Sheet, { shape, at }: SideDrawing): string => {
  const [front, rear] = shape.axles;
  return (
    box(sheet, at, [front - 3, 6.4], [rear + 9, 8.6], undefined, 0.8) +
    tube(
      at,
      [
        [front, shape.radii[0], 'corner'],
        [front + 9, 7.6, 'corner'],
      ],
      1,
    ) +
    tube(
      at,
      [
        [rear, shape.radii[1], 'corner'],
        [rear - 12, 7.6, 'corner'],
      ],
      1.2,
    )
  );
};

/** Radiator shell, free-standing lamps and the engine of a rod. */
const front = (sheet: Sheet, { at, spec }: SideDrawing): string => {
  const [rx0, ry0] = place(at, [21.2, 23.4]);
  const [, ry1] = place(at, [21.2, 8]);
  const shell: PathPoint[] = [
    [20.4, 8.4, 'corner'],
    [20.2, 20.4],
    [21.4, 23.2],
    [24, 23.6],
    [25.4, 22.4, 'corner'],
    [25.4, 8.4, 'corner'],
  ];
  const headers = [0, 1, 2, 3]
    .map(i =>
      tube(
        at,
        [
          [29 + i * 3, 15.4],
          [30.4 + i * 2.4, 12.4],
          [36 + i, 10.4],
        ],
        1.1,
      ),
    )
    .join('');
  const gone = spec.missing.includes('accessory');
  const body = gone
    ? box(sheet, at, [28, 10], [39, 13], '#3a3b3c')
    : engine(sheet, at, [27, 11.4], 13.5, 14) + headers;
  return group(
    body +
      tube(
        at,
        [
          [36, 10.2],
          [48, 7.4],
          [66, 7],
        ],
        1.5,
      ) +
      slab(sheet, at, shell, spec.bodyFinish === 'bright plate' ? '#c4c8ca' : '#b9bdbf', 0.4) +
      line(`M${px(rx0)} ${px(ry0 + 12)}V${px(ry1)}`, '#000000', 2, 0.25) +
      box(sheet, at, [17.6, 15.6], [20.6, 19.4], undefined, 1.5),
  );
};

/** The blown dome of a show car, with the cabin under it. */
const dome = (sheet: Sheet, { at, spec }: SideDrawing): string => {
  const tint = glazingTints[spec.glazing] ?? glazingTints.clear!;
  const glass: PathPoint[] = [
    [34, 16.6, 'corner'],
    [37.4, 21.6],
    [43.6, 26.4],
    [51.5, 28.2],
    [59.6, 26.4],
    [66, 21.8],
    [69.4, 17.2, 'corner'],
  ];
  const rimPath: PathPoint[] = [
    [33.4, 16.6],
    [51, 16],
    [70, 17.2],
  ];
  if (spec.missing.includes('glazing')) return tube(at, rimPath, 0.8);
  const d = `${closed(at, glass)}`;
  const [x0, y0] = place(at, [34, 28.2]);
  const [x1, y1] = place(at, [69.4, 16.6]);
  const body = sheet.radial((x0 + x1) / 2, y1, (x1 - x0) * 0.56, [
    { at: 0, colour: tint.colour, opacity: tint.depth * 0.75 },
    { at: 0.75, colour: tint.colour, opacity: tint.depth * 0.95 },
    { at: 1, colour: deepen(tint.colour, 0.6), opacity: Math.min(0.9, tint.depth + 0.35) },
  ]);
  const box0 = curveShine(at, 0.72, 0.24);
  const low = sheet.linear(0, y0, 0, y1, [
    { at: 0, colour: '#ffffff', opacity: 0.5 },
    { at: 0.4, colour: '#ffffff', opacity: 0.05 },
    { at: 1, colour: '#ffffff', opacity: 0.18 },
  ]);
  return (
    fill(d, body) +
    fill(d, low) +
    fill(box0, '#ffffff', 0.55) +
    line(d, deepen(tint.colour, 0.5), 1.6, 0.6) +
    tube(at, rimPath, 0.75, '#c7cbcc')
  );
};

/** The softbox mirrored in the dome: a bent window of light. */
const curveShine = (at: SideDrawing['at'], high: number, wide: number): string =>
  closed(at, [
    [41, 16.6 + 11.6 * high * 0.92, 'corner'],
    [46, 16.6 + 11.6 * (high + 0.14)],
    [52, 16.6 + 11.6 * (high + 0.19), 'corner'],
    [52, 16.6 + 11.6 * (high + 0.19 - wide * 0.55), 'corner'],
    [47, 16.6 + 11.6 * (high + 0.13 - wide * 0.6)],
    [43, 16.6 + 11.6 * (high - wide * 0.62), 'corner'],
  ]);
