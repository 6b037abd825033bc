/** A point in units of one hundredth of the car's length: x from nose to tail, y up from the ground. */
export type Point = readonly [x: number, y: number];

/** A corner keeps its edge; every other point is passed smoothly. */
export type PathPoint = readonly [x: number, y: number, corner?: 'corner'];

/** Where the car stands on the canvas, in pixels. */
export interface Placing {
  left: number;
  ground: number;
  /** Pixels for one hundredth of the car's length. */
  scale: number;
}

/** A length in pixels as SVG writes it, to a hundredth. */
export const px = (value: number): string => String(Math.round(value * 100) / 100);

/** A point of the car (hundredths of its length, y up from the ground) in pixels of the sheet. */
export const place = (at: Placing, [x, y]: readonly [number, number, ...unknown[]]): Point => [
  at.left + x * at.scale,
  at.ground - y * at.scale,
];

/**
 * Cubic pieces of a centripetal Catmull-Rom spline through points; corners end one spline and begin the next.
 */
const splinePieces = (points: readonly PathPoint[]): [Point, Point, Point][] => {
  const pieces: [Point, Point, Point][] = [];
  for (let i = 0; i < points.length - 1; i++) {
    const p1 = points[i]!;
    const p2 = points[i + 1]!;
    const p0 = p1[2] === 'corner' || i === 0 ? p1 : points[i - 1]!;
    const p3 = p2[2] === 'corner' || i + 2 >= points.length ? p2 : points[i + 2]!;
    pieces.push([...controlPoints(p0, p1, p2, p3), [p2[0], p2[1]]]);
  }
  return pieces;
};

/** Control points of the cubic from p1 to p2. Source: centripetal Catmull-Rom to Bézier, alpha one half. */
const controlPoints = (p0: PathPoint, p1: PathPoint, p2: PathPoint, p3: PathPoint): [Point, Point] => {
  const distance = (a: PathPoint, b: PathPoint) => Math.hypot(b[0] - a[0], b[1] - a[1]);
  const d1 = Math.sqrt(distance(p0, p1));
  const d2 = Math.sqrt(distance(p1, p2));
  const d3 = Math.sqrt(distance(p2, p3));
  const control = (axis: 0 | 1, near: PathPoint, far: PathPoint, outer: PathPoint, da: number): number => {
    if (da < 1e-9) return near[axis] + (far[axis] - near[axis]) / 3;
    const weight = 2 * da * da + 3 * da * d2 + d2 * d2;
    return (da * da * far[axis] - d2 * d2 * outer[axis] + weight * near[axis]) / (3 * da * (da + d2));
  };
  return [
    [control(0, p1, p2, p0, d1), control(1, p1, p2, p0, d1)],
    [control(0, p2, p1, p3, d3), control(1, p2, p1, p3, d3)],
  ];
};

/** Path data of an open curve; `join` continues a path that has begun. */
export const curve = (at: Placing, points: readonly PathPoint[], join = false): string => {
  const coordinates = (point: Point) => {
    const [x, y] = place(at, point);
    return `${px(x)} ${px(y)}`;
  };
  const first = points[0]!;
  const head = `${join ? 'L' : 'M'}${coordinates([first[0], first[1]])}`;
  return (
    head +
    splinePieces(points)
      .map(piece => `C${piece.map(coordinates).join(' ')}`)
      .join('')
  );
};

/** Path data of a closed smooth shape; the first point is a corner. */
export const closed = (at: Placing, points: readonly PathPoint[]): string =>
  `${curve(at, [...points, points[0]!])}Z`;

/** Path data of a closed shape of straight edges whose corners are rounded by `radius` units. */
export const rounded = (at: Placing, points: readonly Point[], radius: number): string => {
  const count = points.length;
  const parts = points.map((corner, i) => {
    const before = points[(i + count - 1) % count]!;
    const after = points[(i + 1) % count]!;
    const toward = (other: Point): Point => {
      const length = Math.hypot(other[0] - corner[0], other[1] - corner[1]);
      const t = Math.min(0.45, radius / Math.max(length, 1e-6));
      return [corner[0] + (other[0] - corner[0]) * t, corner[1] + (other[1] - corner[1]) * t];
    };
    const write = (point: Point) => place(at, point).map(px).join(' ');
    return `${i === 0 ? 'M' : 'L'}${write(toward(before))}Q${write(corner)} ${write(toward(after))}`;
  });
  return `${parts.join('')}Z`;
};

/** Points along a curve, evenly by parameter: `each` per piece. */
export const along = (points: readonly PathPoint[], each = 12): Point[] => {
  const found: Point[] = [[points[0]![0], points[0]![1]]];
  let from: Point = found[0]!;
  for (const [c1, c2, to] of splinePieces(points)) {
    for (let i = 1; i <= each; i++) {
      const t = i / each;
      const u = 1 - t;
      const at = (axis: 0 | 1) =>
        u * u * u * from[axis] + 3 * u * u * t * c1[axis] + 3 * u * t * t * c2[axis] + t * t * t * to[axis];
      found.push([at(0), at(1)]);
    }
    from = to;
  }
  return found;
};

/** Height of a curve that runs from left to right, at x. */
export const heightAt = (points: readonly PathPoint[], x: number): number => {
  const line = along(points, 16);
  for (let i = 1; i < line.length; i++) {
    const [x1, y1] = line[i - 1]!;
    const [x2, y2] = line[i]!;
    if (x >= Math.min(x1, x2) && x <= Math.max(x1, x2) && x1 !== x2)
      return y1 + ((y2 - y1) * (x - x1)) / (x2 - x1);
  }
  return line[x < line[0]![0] ? 0 : line.length - 1]![1];
};

/** Leftmost and rightmost place of a line at height y; the ends of the line where it does not reach y. */
export const reachAt = (points: readonly PathPoint[], y: number): [left: number, right: number] => {
  let left = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  const line = along(points, 16);
  for (let i = 1; i < line.length; i++) {
    const [x1, y1] = line[i - 1]!;
    const [x2, y2] = line[i]!;
    if (y < Math.min(y1, y2) || y > Math.max(y1, y2)) continue;
    const x = y1 === y2 ? x1 : x1 + ((x2 - x1) * (y - y1)) / (y2 - y1);
    left = Math.min(left, x);
    right = Math.max(right, x);
  }
  return [Number.isFinite(left) ? left : line[0]![0], Number.isFinite(right) ? right : line.at(-1)![0]];
};
