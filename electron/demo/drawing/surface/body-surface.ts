import { along, type PathPoint } from '../geometry.ts';
import type { Shape } from '../shapes/shape.ts';

/** Room between a wheel and its arch, in hundredths of the length. */
export const archGap = 1.25;

/** The body as a surface over a grid: for each pixel its normal's parts, and how exposed it is to knocks. */
export interface Surface {
  width: number;
  height: number;
  /** Pixels for one hundredth of the length. */
  scale: number;
  /** Left and top of the grid in hundredths of the length. */
  left: number;
  top: number;
  nx: Float32Array;
  ny: Float32Array;
  /** 0 sheltered … 1 an edge that every knock finds. */
  exposed: Float32Array;
  /** 0 … 1, less where no light comes: at the sill, inside corners. */
  open: Float32Array;
  /** 1 above the line where the roof's own paint begins. */
  roof: Uint8Array;
}

/** Radians in a degree. */
export const radians = Math.PI / 180;

/** A smooth table of angles over 0 … 1 through the given stops. */
export const profile = (stops: [at: number, degrees: number][]): Float32Array => {
  const line = along(
    stops.map(([at, degrees]): PathPoint => [at * 100, degrees]),
    8,
  );
  const table = new Float32Array(257);
  let k = 0;
  for (let i = 0; i <= 256; i++) {
    const x = (i / 256) * 100;
    while (k < line.length - 2 && line[k + 1]![0] < x) k++;
    const [x0, y0] = line[k]!;
    const [x1, y1] = line[k + 1]!;
    table[i] = (y0 + ((y1 - y0) * (x - x0)) / Math.max(1e-6, x1 - x0)) * radians;
  }
  return table;
};

/**
 * How far the flank leans back from the sill to the shoulder: rounded as in the sixties, or
 * folded along a line.
 */
const flanks = {
  round: profile([
    [0, -40],
    [0.08, -22],
    [0.25, -9],
    [0.5, 1],
    [0.72, 8],
    [0.88, 18],
    [1, 34],
  ]),
  folded: profile([
    [0, -32],
    [0.1, -16],
    [0.45, -9],
    [0.58, 0],
    [0.66, 9],
    [0.9, 13],
    [1, 32],
  ]),
};
const bonnetLean = profile([
  [0, 34],
  [0.35, 52],
  [0.75, 70],
  [1, 86],
]);
const cabinLean = profile([
  [0, 13],
  [0.5, 17],
  [0.72, 24],
  [0.88, 46],
  [1, 84],
]);

/** Height of an open line over each column, or −1 where it does not reach. */
const overColumns = (
  points: readonly PathPoint[],
  width: number,
  left: number,
  step: number,
  high: boolean,
) => {
  const heights = new Float32Array(width).fill(-1);
  const line = along(points, 24);
  for (let i = 1; i < line.length; i++) {
    const [ax, ay] = line[i - 1]!;
    const [bx, by] = line[i]!;
    const from = Math.max(0, Math.ceil((Math.min(ax, bx) - left) / step));
    const to = Math.min(width - 1, Math.floor((Math.max(ax, bx) - left) / step));
    for (let c = from; c <= to; c++) {
      const t = ax === bx ? 0 : (left + c * step - ax) / (bx - ax);
      const y = ay + (by - ay) * t;
      if (heights[c]! < 0 || (high ? y > heights[c]! : y < heights[c]!)) heights[c] = y;
    }
  }
  return heights;
};

/** Leftmost and rightmost reach of the outline over each row. */
export const overRows = (points: readonly PathPoint[], height: number, top: number, step: number) => {
  const from = new Float32Array(height).fill(1e6);
  const to = new Float32Array(height).fill(-1e6);
  const line = along(points, 24);
  for (let i = 1; i < line.length; i++) {
    const [ax, ay] = line[i - 1]!;
    const [bx, by] = line[i]!;
    const low = Math.max(0, Math.ceil((top - Math.max(ay, by)) / step));
    const high = Math.min(height - 1, Math.floor((top - Math.min(ay, by)) / step));
    for (let r = low; r <= high; r++) {
      const t = ay === by ? 0 : (top - r * step - ay) / (by - ay);
      const x = ax + (bx - ax) * t;
      if (x < from[r]!) from[r] = x;
      if (x > to[r]!) to[r] = x;
    }
  }
  return { from, to };
};

const settle = (heights: Float32Array, filler: number): Float32Array => {
  let last = filler;
  for (let i = 0; i < heights.length; i++) {
    if (heights[i]! < 0) heights[i] = last;
    last = heights[i]!;
  }
  for (let i = heights.length - 2; i >= 0; i--) if (heights[i] === filler) heights[i] = heights[i + 1]!;
  return heights;
};

/** A grid of `scale` pixels for one hundredth of the length, on which nothing stands yet. */
export const emptySurface = (grid: Omit<Surface, 'nx' | 'ny' | 'exposed' | 'open' | 'roof'>): Surface => {
  const count = grid.width * grid.height;
  return {
    ...grid,
    nx: new Float32Array(count),
    ny: new Float32Array(count),
    exposed: new Float32Array(count),
    open: new Float32Array(count),
    roof: new Uint8Array(count),
  };
};

/** The surface of a shape at `scale` pixels for one hundredth of the length. */
export const surfaceOf = (shape: Shape, scale: number): Surface => {
  const step = 1 / scale;
  const left = -2;
  const peak = Math.max(...shape.outline.map(([, y]) => y)) + 1.2;
  const width = Math.ceil(104 * scale);
  const height = Math.ceil((peak - shape.sill + 1) * scale);
  const surface = emptySurface({ width, height, scale, left, top: peak });
  const outline = settle(overColumns(shape.outline, width, left, step, true), 12);
  const belt = settle(overColumns(shape.belt, width, left, step, true), shape.belt[0]![1]);
  const crease = settle(overColumns(shape.crease, width, left, step, true), -50);
  const roof = shape.roof ? overColumns(shape.roof, width, left, step, true) : null;
  const reach = overRows(shape.outline, height, peak, step);
  // Below the corners of the outline the body ends straight down.
  for (let row = 1; row < height; row++)
    if (reach.from[row]! > reach.to[row]! && reach.from[row - 1]! < reach.to[row - 1]!) {
      reach.from[row] = reach.from[row - 1]!;
      reach.to[row] = reach.to[row - 1]!;
    }
  const flank = flanks[shape.folded ? 'folded' : 'round'];
  const roofFoot = shape.roof ? Math.min(shape.roof[0]![1], shape.roof.at(-1)![1]) + 0.4 : 0;

  for (let row = 0; row < height; row++) {
    const y = peak - row * step;
    const rowFrom = reach.from[row]!;
    const rowTo = reach.to[row]!;
    if (rowFrom > rowTo) continue;
    const inCabin = roof !== null && y > roofFoot;
    const turn = inCabin ? 3.4 : shape.noseTurn;
    for (let column = 0; column < width; column++) {
      const x = left + column * step;
      if (x < rowFrom - 0.4 || x > rowTo + 0.4 || y > outline[column]! + 0.5) continue;
      const k = row * width + column;
      const ridge = belt[column]!;
      const roofHere = roof ? roof[column]! : -1;
      let lean: number;
      let exposed = 0.1;
      let open = 1;
      if (y <= ridge) {
        const s = Math.max(0, (y - shape.sill) / Math.max(1, ridge - shape.sill));
        lean = flank[Math.min(256, (s * 256) | 0)]!;
        open = 0.42 + 0.58 * Math.min(1, s * 4.5);
        exposed += 0.55 * Math.max(0, 1 - Math.abs(ridge - y) / 1.4) + 0.5 * Math.max(0, 1 - s * 9);
        const off = y - crease[column]!;
        if (off < 2 && off > -1.8) {
          const above = (off - 0.55) / 0.7;
          const below = (off + 0.5) / 0.55;
          lean += 9 * radians * (Math.exp(-above * above) - Math.exp(-below * below));
          exposed += 0.25 * Math.max(0, 1 - Math.abs(off) * 1.4);
        }
      } else if (roofHere > ridge + 0.4) {
        const u = Math.min(1, (y - ridge) / Math.max(0.8, roofHere - ridge));
        // Toward the foot of the screens the roof is low, and the body's own shoulder goes over into it.
        const low = Math.max(0, 1 - (roofHere - ridge) / 5);
        lean = cabinLean[(u * 256) | 0]! * (1 - low) + bonnetLean[(u * 256) | 0]! * low;
        exposed += 0.7 * Math.max(0, (u - 0.8) / 0.2);
        open = 0.72 + 0.28 * Math.min(1, u * 6 + low);
        if (y > roofFoot + 0.6) surface.roof[k] = 1;
      } else {
        const u = Math.min(1, (y - ridge) / Math.max(0.6, outline[column]! - ridge));
        lean = bonnetLean[(u * 256) | 0]!;
        exposed += 0.5 * Math.max(0, (u - 0.6) / 0.4);
      }
      const fromLeft = Math.max(0, x - rowFrom);
      const fromRight = Math.max(0, rowTo - x);
      let yaw = (-4 + 0.08 * x) * radians;
      if (fromLeft < turn) {
        const t = 1 - fromLeft / turn;
        yaw -= 74 * radians * t * t;
      }
      if (fromRight < turn) {
        const t = 1 - fromRight / turn;
        yaw += 74 * radians * t * t;
      }
      const end = Math.min(fromLeft, fromRight);
      exposed += 0.8 * Math.max(0, 1 - end / 2.6);
      let ny = Math.sin(lean);
      let nx = Math.sin(yaw) * Math.sqrt(1 - ny * ny);
      if (shape.arches)
        for (let w = 0; w < 2; w++) {
          const dx = x - shape.axles[w]!;
          const dy = y - shape.radii[w]!;
          const far2 = dx * dx + dy * dy;
          if (far2 > (shape.radii[w]! + 5) ** 2) continue;
          const far = Math.sqrt(far2);
          const q = far - shape.radii[w]! - archGap;
          if (q > 3.4 || q < -0.6) continue;
          const t = Math.max(0, q);
          const bend =
            t < 0.5
              ? 0.62 - 0.3 * t
              : t < 2.2
                ? 0.47 * (1 - (t - 0.5) / 1.7)
                : -0.1 * Math.sin(((t - 2.2) / 1.2) * Math.PI);
          const room = 0.8 * (1 - 0.85 * Math.max(0, ny));
          nx += (dx / far) * bend * room;
          ny += (dy / far) * bend * room;
          exposed += 0.75 * Math.max(0, 1 - t / 0.9);
        }
      const size = Math.sqrt(nx * nx + ny * ny);
      if (size > 0.998) {
        nx *= 0.998 / size;
        ny *= 0.998 / size;
      }
      surface.nx[k] = nx;
      surface.ny[k] = ny;
      surface.exposed[k] = exposed;
      surface.open[k] = open;
    }
  }
  return surface;
};
