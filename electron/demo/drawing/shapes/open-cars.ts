import type { PathPoint, Point } from '../geometry.ts';
import type { Shape } from './shape.ts';

const common = {
  roof: null,
  windows: [],
  folded: false,
  noseTurn: 8,
  bed: null,
  crease: [] as PathPoint[],
  seams: [] as PathPoint[][],
};

/** Measures of a roadster that differ from one casting to the next. */
const roadsters: Record<
  string,
  { round: number; hood: number; cowl: Point; deck: number; seatAt: number; r: number }
> = {
  'Merrowdale Tourer': { round: 1, hood: 15.6, cowl: [41, 20], deck: 19.4, seatAt: 58, r: 8 },
  'Fenwyther Drophead': { round: 0.2, hood: 18.2, cowl: [35, 20.8], deck: 20.4, seatAt: 54, r: 7.4 },
};

const roadsterTail = (rearEnd: string, deck: number): PathPoint[] => {
  switch (rearEnd) {
    case 'boat tail':
      return [
        [88, deck - 1],
        [97, deck - 5.6],
        [100, deck - 8.6],
        [98.2, 6.8, 'corner'],
      ];
    case 'fin tail':
      return [
        [88, deck + 0.8],
        [97.6, deck + 3.2, 'corner'],
        [97.2, deck - 0.6],
        [99.4, deck - 5],
        [98.6, 6.6, 'corner'],
      ];
    default:
      return [
        [90, deck - 0.1],
        [97, deck - 0.8],
        [99, deck - 2.4],
        [99.5, deck - 6],
        [98.6, 6.6, 'corner'],
      ];
  }
};

/** A two-seater without a roof. */
export const roadster = (casting: string, rearEnd: string): Shape => {
  const { round, hood, cowl, deck, seatAt, r } = roadsters[casting] ?? roadsters['Fenwyther Drophead']!;
  const outline: PathPoint[] = [
    [1.4, 6.6, 'corner'],
    [0.5, 10.5 - round],
    [1 + round, hood - 3.4],
    [3.4 + 2.4 * round, hood - 0.5],
    [13, Math.max(hood + 0.8, 2 * r + 2.6)],
    [26, (hood + cowl[1]) / 2 + 1],
    [cowl[0], cowl[1], 'corner'],
    [cowl[0] + 2.6, cowl[1] - 1.2],
    [(cowl[0] + seatAt) / 2 + 3, cowl[1] - 1.9],
    [seatAt + 4, cowl[1] - 1],
    [seatAt + 7, deck + 0.7, 'corner'],
    [seatAt + 16, deck + 0.4],
    ...roadsterTail(rearEnd, deck),
  ];
  const belt: PathPoint[] = [
    [0.8, hood - 2.6],
    [14, Math.max(hood - 0.8, 2 * r + 1)],
    [cowl[0], cowl[1] - 2],
    [seatAt, cowl[1] - 2.5],
    [seatAt + 12, deck - 1.2],
    [98.8, deck - (rearEnd === 'boat tail' ? 7 : 2.4)],
  ];
  const crease = belt.map(([x, y]): PathPoint => [x, y - 3]);
  return {
    ...common,
    outline,
    belt,
    crease,
    seams: [
      [
        [cowl[0] + 2, cowl[1] - 1.2, 'corner'],
        [cowl[0] + 1.4, 11],
        [cowl[0] + 2.4, 7, 'corner'],
        [seatAt + 3, 7, 'corner'],
        [seatAt + 4, 12],
        [seatAt + 4.2, cowl[1] - 1.2, 'corner'],
      ],
    ],
    axles: [19, 78],
    radii: [r, r + 0.2],
    arches: true,
    sill: 5.2,
    headlamp: [2 + 1.2 * round, hood - 2.6 - round],
    tailLamp: [rearEnd === 'boat tail' ? 97.4 : 98.9, deck - (rearEnd === 'boat tail' ? 7.5 : 3.4)],
    seats: [{ x: seatAt, top: cowl[1] + 3.8 }],
    wheelHub: [cowl[0] + 6.5, cowl[1] + 1.8],
    screen: { foot: [cowl[0] - 0.8, cowl[1]], head: [cowl[0] + 4.4, cowl[1] + 6.6] },
    roofSpot: [seatAt + 10, deck],
    bonnetSpot: [24, (hood + cowl[1]) / 2 + 1],
    deckSpot: [94, deck],
  };
};

const cigars: Record<
  string,
  { nose: number; crown: number; tail: number; radii: [number, number]; axles: [number, number] }
> = {
  Threadneedle: { nose: 9.4, crown: 15.4, tail: 12.6, radii: [7.8, 9.2], axles: [18, 80] },
  Barograph: { nose: 7, crown: 14, tail: 14.4, radii: [7, 9.6], axles: [17, 80] },
  Plumbline: { nose: 8.4, crown: 13.6, tail: 10.8, radii: [6.6, 9.8], axles: [13, 82] },
};

/** A cigar-shaped racer. */
export const singleSeater = (casting: string, rearEnd: string): Shape => {
  const { nose, crown, tail, radii, axles } = cigars[casting] ?? cigars.Threadneedle!;
  const end: PathPoint[] =
    rearEnd === 'boat tail'
      ? [
          [88, tail],
          [97, tail - 3.4],
          [100, tail - 5.6],
          [96, 6.4, 'corner'],
        ]
      : [
          [86, tail + 0.4],
          [92.5, tail - 1],
          [94.2, tail - 3.6],
          [93, 6.4, 'corner'],
        ];
  const outline: PathPoint[] = [
    [2.6, nose - 2.6, 'corner'],
    [1.4, nose - 0.9],
    [2.6, nose + 1],
    [12, nose + (crown - nose) * 0.55],
    [26, crown - 0.7],
    [38, crown + 0.5],
    [43.5, crown + 1.6, 'corner'],
    [45.2, crown - 0.4],
    [50, crown - 0.9],
    [54, crown + 0.2],
    [57.5, crown + 4.4, 'corner'],
    [61, crown + 4],
    [70, crown + 1.6],
    ...end,
  ];
  const belt: PathPoint[] = [
    [1.8, nose - 0.4],
    [12, nose + (crown - nose) * 0.3],
    [30, crown - 2.6],
    [50, crown - 2.8],
    [64, crown - 1],
    [94, tail - (rearEnd === 'boat tail' ? 4.6 : 2.2)],
  ];
  return {
    ...common,
    outline,
    belt,
    crease: belt.map(([x, y]): PathPoint => [x, y - 3.2]),
    axles,
    radii,
    arches: false,
    sill: 5,
    noseTurn: 13,
    headlamp: [0, 0],
    tailLamp: [93.4, tail - 3],
    seats: [{ x: 52.5, top: crown + 3 }],
    wheelHub: [46.6, crown + 0.6],
    screen: { foot: [41.5, crown + 1.2], head: [45, crown + 4] },
    roofSpot: [58, crown + 4],
    bonnetSpot: [30, crown],
    deckSpot: [91, tail],
  };
};

const dunes: Record<string, { nose: number; dash: number; r: [number, number]; rear: number }> = {
  Marram: { nose: 19.6, dash: 24.4, r: [8.8, 10.6], rear: 25.2 },
  Saltwhistle: { nose: 16.4, dash: 22.6, r: [8.4, 10.8], rear: 24.6 },
  'Lucky Dip': { nose: 22, dash: 25, r: [9, 10], rear: 24 },
};

/** A short, open car on big wheels. */
export const duneCar = (casting: string): Shape => {
  const { nose, dash, r, rear } = dunes[casting] ?? dunes.Marram!;
  const front = 2 * r[0] + 3.4;
  const back = Math.max(rear, 2 * r[1] + 3.2);
  const outline: PathPoint[] = [
    [4.6, 10.4, 'corner'],
    [2.2, 13.4],
    [2.6, nose - 2],
    [6, nose],
    [14, front - 0.7],
    [22, front],
    [30, front - 0.8],
    [37, dash - 0.6],
    [39.6, dash, 'corner'],
    [41, 18.2],
    [48, 16.8],
    [57, 17],
    [61.5, 19.2],
    [67, back - 1.2],
    [76, back],
    [84.5, back - 1.4],
    [90.4, back - 6.4],
    [90.6, 14],
    [88.4, 10.4, 'corner'],
  ];
  const belt: PathPoint[] = [
    [2.8, nose - 3],
    [20, front - 2],
    [38, dash - 3.4],
    [52, 14.8],
    [66, back - 3.4],
    [90.4, back - 7.4],
  ];
  return {
    ...common,
    outline,
    belt,
    crease: [
      [4, 12.6],
      [50, 12.2],
      [90, 12.6],
    ],
    axles: [21.5, 76],
    radii: r,
    arches: true,
    sill: 8.6,
    noseTurn: 7,
    headlamp: [5.2, nose + 0.2],
    tailLamp: [90.2, back - 7],
    seats: [{ x: 56, top: 27 }],
    wheelHub: [46, 22.4],
    screen: { foot: [38.4, dash], head: [43.6, dash + 9.6] },
    roofSpot: [53, 35.6],
    bonnetSpot: [26, front],
    deckSpot: [88, back - 5],
  };
};

const tubs: Record<string, { cowl: number; top: number; back: number }> = {
  'Coconut Shy': { cowl: 43, top: 24, back: 82 },
  'Barley Twist': { cowl: 45, top: 22.4, back: 88 },
};

/** An open tub with its engine in the wind. */
export const openRod = (casting: string): Shape => {
  const { cowl, top, back } = tubs[casting] ?? tubs['Barley Twist']!;
  const outline: PathPoint[] = [
    [cowl - 0.6, 8.4, 'corner'],
    [cowl - 1.2, 15],
    [cowl, top - 1, 'corner'],
    [cowl + 3.4, top, 'corner'],
    [cowl + 5.4, top - 2.4],
    [cowl + 13, top - 3],
    [cowl + 21, top - 2],
    [cowl + 24, top + 0.6, 'corner'],
    [back - 8, top + 0.7],
    [back - 1.6, top - 1.8],
    [back, top - 8],
    [back - 2.4, 8.4, 'corner'],
  ];
  const belt: PathPoint[] = [
    [cowl - 1.4, top - 2.6],
    [cowl + 12, top - 4.4],
    [cowl + 24, top - 2],
    [back + 0.4, top - 4.6],
  ];
  return {
    ...common,
    outline,
    belt,
    crease: belt.map(([x, y]): PathPoint => [x, y - 4]),
    seams: [
      [
        [cowl + 6, top - 2.6, 'corner'],
        [cowl + 5.6, 10.4, 'corner'],
        [cowl + 20.6, 10.4, 'corner'],
        [cowl + 21.4, top - 2.2, 'corner'],
      ],
    ],
    axles: [14.5, 79],
    radii: [8, 12.2],
    arches: false,
    sill: 8,
    noseTurn: 5,
    headlamp: [20.6, 17.4],
    tailLamp: [back - 0.4, top - 7],
    seats: [{ x: cowl + 20, top: top + 4.6 }],
    wheelHub: [cowl + 9.4, top + 1.8],
    screen: { foot: [cowl + 2.4, top], head: [cowl + 4.4, top + 8] },
    roofSpot: [cowl + 16, top + 12.6],
    bonnetSpot: [32, 20],
    deckSpot: [back - 3, top],
  };
};

/** A show car under a clear dome. */
export const bubbleTop = (rearEnd: string): Shape => {
  const fins = rearEnd === 'fin tail';
  const outline: PathPoint[] = [
    [1.6, 6, 'corner'],
    [0.4, 8.2],
    [2, 11],
    [10, 14.2],
    [18, 16.6],
    [28, 16.8],
    [40, 17],
    [60, 17.2],
    [72, 18.4],
    ...(fins
      ? ([
          [88, 21.6],
          [97.6, 26.2, 'corner'],
          [97, 19.6],
          [99.4, 13],
        ] as PathPoint[])
      : ([
          [86, 18.6],
          [95, 17.4],
          [98.6, 14.6],
          [99.4, 11],
        ] as PathPoint[])),
    [98.2, 6, 'corner'],
  ];
  const belt: PathPoint[] = [
    [0.6, 8.6],
    [16, 14.6],
    [40, 14.8],
    [64, 15.2],
    [84, 17],
    [99, fins ? 16.4 : 13.6],
  ];
  return {
    ...common,
    outline,
    belt,
    crease: belt.map(([x, y]): PathPoint => [x, y - 2.8]),
    axles: [18.5, 78.5],
    radii: [6.8, 7.6],
    arches: true,
    sill: 4.6,
    noseTurn: 11,
    headlamp: [0, 0],
    tailLamp: [98.6, 12.6],
    seats: [{ x: 54, top: 22.4 }],
    wheelHub: [45, 19.4],
    screen: null,
    roofSpot: [52, 28],
    bonnetSpot: [26, 17],
    deckSpot: [92, 19],
  };
};
