import { along, heightAt, type PathPoint, type Point, reachAt } from '../geometry.ts';
import type { Shape } from './shape.ts';

/** The measures that make one closed body differ from another, in hundredths of the length. */
export interface ClosedCar {
  noseX: number;
  noseTop: number;
  /** How round the nose is: 0 a blunt edge, 1 a full curve. */
  noseRound: number;
  /** Rise of the bonnet above the line from nose to cowl. */
  bonnetCrown: number;
  cowl: Point;
  screenTop: Point;
  roofPeak: Point;
  roofEnd: Point;
  backBase: Point;
  /** Outward swell of the rear window line. */
  backSwell: number;
  tailTop: number;
  tailX: number;
  axles: [front: number, rear: number];
  radii: [front: number, rear: number];
  sill: number;
  /** B and further pillars: x at the top and at the foot. */
  pillars: [top: number, foot: number][];
  aPillar: number;
  cPillar: number;
  roofSkin: number;
  /** Where the glass ends at the rear; the back base where none is given. */
  glassEnd?: number;
  doors: [from: number, to: number][];
  bed?: Shape['bed'];
  creaseDrop: number;
  folded?: boolean;
  /** A face without a bonnet, running straight up into the windscreen. */
  flatFace?: boolean;
  noseTurn?: number;
}

/** What the rear end does to the outline: a lip, fins, a taper. */
const tailPoints = (car: ClosedCar, rearEnd: string): PathPoint[] => {
  const { tailX, tailTop, sill } = car;
  const foot: PathPoint = [tailX - 0.9, sill + 1.6, 'corner'];
  switch (rearEnd) {
    case 'ducktail':
      return [
        [tailX - 6, tailTop + 0.1],
        [tailX - 2.2, tailTop + 1.3],
        [tailX - 0.4, tailTop + 2.2, 'corner'],
        [tailX - 0.9, tailTop - 1.2],
        [tailX - 0.2, tailTop - 5],
        foot,
      ];
    case 'fin tail':
      return [
        [tailX - 9, tailTop + 0.9],
        [tailX - 1.4, tailTop + 3, 'corner'],
        [tailX - 1.9, tailTop - 0.4],
        [tailX, tailTop - 4.6],
        foot,
      ];
    case 'boat tail':
      return [
        [tailX - 7, tailTop - 1.4],
        [tailX - 1.5, tailTop - 4.4],
        [tailX + 0.4, tailTop - 6.6],
        [tailX - 1.6, sill + 2, 'corner'],
      ];
    default:
      return [[tailX - 2.6, tailTop], [tailX - 0.7, tailTop - 1.2], [tailX, tailTop - 4.4], foot];
  }
};

const nosePoints = ({ noseX, noseTop, noseRound, sill }: ClosedCar): PathPoint[] => {
  const drop = 1.2 + 4 * noseRound;
  return [
    [noseX + 0.9, sill + 1.4, 'corner'],
    [noseX, sill + (noseTop - sill) * (0.62 - 0.2 * noseRound)],
    [noseX + 0.5 + noseRound, noseTop - drop * 0.62],
    [noseX + 2.2 + 2.4 * noseRound, noseTop - drop * 0.16],
  ];
};

const roofPoints = (car: ClosedCar): PathPoint[] => {
  const { cowl, screenTop, roofPeak, roofEnd, backBase, backSwell } = car;
  const between = (a: Point, b: Point, t: number, lift: number): PathPoint => [
    a[0] + (b[0] - a[0]) * t,
    a[1] + (b[1] - a[1]) * t + lift,
  ];
  return [
    car.flatFace ? [cowl[0], cowl[1]] : [cowl[0], cowl[1], 'corner'],
    between(cowl, screenTop, 0.5, 0.45),
    [screenTop[0], screenTop[1]],
    [roofPeak[0], roofPeak[1]],
    [roofEnd[0], roofEnd[1]],
    between(roofEnd, backBase, 0.5, backSwell),
    car.tailX - backBase[0] < 4 ? [backBase[0], backBase[1]] : [backBase[0], backBase[1], 'corner'],
  ];
};

/** The near-side glass between the pillars, following the roof at the thickness of its skin. */
const glassBetween = (car: ClosedCar, roof: PathPoint[]): Point[][] => {
  const { cowl, screenTop, roofEnd, backBase, aPillar, cPillar, roofSkin } = car;
  const foot = (x: number) =>
    cowl[1] + ((backBase[1] - cowl[1]) * (x - cowl[0])) / Math.max(1, backBase[0] - cowl[0]) + 0.75;
  const end = car.glassEnd ?? backBase[0] - cPillar;
  const topFrom = screenTop[0] + aPillar * 0.75;
  const topTo = Math.min(roofEnd[0] - cPillar * 0.35, end - 0.5);
  const line = along(roof, 10);
  const topAt = (x: number) => {
    let best = line[0]!;
    for (const point of line) if (Math.abs(point[0] - x) < Math.abs(best[0] - x)) best = point;
    return best[1] - roofSkin;
  };
  const edges: [top: number, foot: number][] = [
    [topFrom, cowl[0] + aPillar],
    ...car.pillars.filter(([top]) => top < topTo - 3),
    [topTo, end],
  ];
  const gap = 0.75;
  return edges.slice(0, -1).map((edge, i) => {
    const next = edges[i + 1]!;
    const left = i === 0 ? 0 : gap;
    const right = i === edges.length - 2 ? 0 : gap;
    const from = edge[0] + left;
    const to = next[0] - right;
    const middle = [0.33, 0.66].map(t => from + (to - from) * t);
    return [
      [edge[1] + left, foot(edge[1])],
      [from, topAt(from)],
      ...middle.map((x): Point => [x, topAt(x)]),
      [to, topAt(to)],
      [next[1] - right, foot(next[1] - right)],
    ];
  });
};

/** Builds the side view of a closed car from its measures and rear end. */
export const closedCar = (car: ClosedCar, rearEnd: string): Shape => {
  const roof = roofPoints(car);
  const { cowl, backBase, noseX, noseTop, tailX, tailTop, sill } = car;
  const axle = car.axles[0];
  // The wing goes over the wheel, however low the nose.
  const wing = 2 * car.radii[0] + 2.9;
  const onLine = noseTop + ((cowl[1] - noseTop) * (axle - noseX)) / (cowl[0] - noseX) + car.bonnetCrown;
  const low = axle < cowl[0] - 4 && onLine < wing;
  const bonnet: PathPoint[] = car.flatFace
    ? []
    : low
      ? [
          [axle - 8.5, Math.max(noseTop + 0.8, wing - 3)],
          [axle - 1, wing],
          [axle + (cowl[0] - axle) * 0.55, Math.max(wing - 0.5, (wing + cowl[1]) / 2 - 0.4)],
        ]
      : [
          [noseX + (cowl[0] - noseX) * 0.35, noseTop + (cowl[1] - noseTop) * 0.35 + car.bonnetCrown],
          [noseX + (cowl[0] - noseX) * 0.7, noseTop + (cowl[1] - noseTop) * 0.72 + car.bonnetCrown * 0.7],
        ];
  const deckLength = tailX - backBase[0];
  const upright = deckLength < 4;
  const deck: PathPoint[] =
    deckLength > 9
      ? [[backBase[0] + deckLength * 0.45, backBase[1] + (tailTop - backBase[1]) * 0.4 + 0.2]]
      : [];
  const tail = tailPoints(car, rearEnd);
  const nose = nosePoints(car);
  const outline = [
    ...(car.flatFace ? nose.slice(0, 3) : nose),
    ...bonnet,
    ...roof,
    ...deck,
    ...(upright ? tail.slice(-2) : tail),
  ];
  const drop = car.creaseDrop;
  const belt: PathPoint[] = [
    [noseX + 0.4, car.flatFace ? cowl[1] - 1.4 : noseTop - 2.4],
    low
      ? [axle, wing - 1.6]
      : [noseX + (cowl[0] - noseX) * 0.5, car.flatFace ? cowl[1] - 1.2 : (noseTop + cowl[1]) / 2 - 1.2],
    [cowl[0], cowl[1] - 0.8],
    [(cowl[0] + backBase[0]) / 2, (cowl[1] + backBase[1]) / 2 - 0.5],
    [backBase[0], backBase[1] - 0.9],
    [tailX - 0.6, upright ? backBase[1] - 1.2 : tailTop - 1.8],
  ];
  const crease = belt.map(
    ([x, y], i): PathPoint => [x, y - drop - (i === 0 || i === belt.length - 1 ? 0.4 : 0)],
  );
  const seams = car.doors.flatMap(([from, to]): PathPoint[][] => {
    const top = (x: number) => heightAt(belt, x) + 0.6;
    return [
      [
        [from, top(from), 'corner'],
        [from - 0.5, sill + 4],
        [from + 0.4, sill + 1.5, 'corner'],
        [to - 0.6, sill + 1.5, 'corner'],
        [to + 0.2, sill + 5],
        [to, top(to), 'corner'],
      ],
    ];
  });
  const lampHeight = noseTop - (car.flatFace ? 6.4 : 2.6 + car.noseRound);
  return {
    outline,
    belt,
    roof,
    windows: glassBetween(car, roof),
    seams,
    crease,
    axles: car.axles,
    radii: car.radii,
    arches: true,
    sill,
    folded: car.folded ?? false,
    noseTurn: car.noseTurn ?? 8,
    headlamp: [reachAt(outline, lampHeight)[0] + 0.75, lampHeight],
    tailLamp: [reachAt(outline, tailTop - 3.2)[1] - 0.2, tailTop - 3.2],
    seats: car.doors.map(([from, to]) => ({ x: from + (to - from) * 0.62, top: cowl[1] + 3.6 })),
    wheelHub: [car.cowl[0] + (car.doors[0] ? 5.5 : 4), cowl[1] + 1.6],
    bed: car.bed ?? null,
    screen: null,
    roofSpot: car.roofPeak,
    bonnetSpot: [noseX + (cowl[0] - noseX) * 0.62, noseTop + (cowl[1] - noseTop) * 0.62 + car.bonnetCrown],
    deckSpot: [tailX - 4, tailTop],
  };
};
