import type { PathPoint } from '../geometry.ts';
import { emptySurface, overRows, profile, radians, type Surface } from '../surface/body-surface.ts';

/** A car seen from behind, in hundredths of its length; x runs from the middle. */
export interface RearShape {
  /** Right half of the outline from the sill up to the middle of the roof. */
  half: PathPoint[];
  sill: number;
  /** Top of the tail panel, and the roof. */
  deck: number;
  roof: number;
  /** How far the surface above the tail lies back, in degrees: 8 a van's doors, 60 a fastback. */
  slope: number;
  hasRoof: boolean;
}

/** Whole outline, left foot over the roof to right foot. */
export const rearOutline = (shape: RearShape): PathPoint[] => [
  ...shape.half.map(([x, y, corner]): PathPoint => [-x, y, corner]),
  ...shape.half.toReversed().slice(1),
];

const panel = profile([
  [0, -38],
  [0.12, -18],
  [0.35, -5],
  [0.6, 1],
  [0.82, 7],
  [0.93, 22],
  [1, 58],
]);

/**
 * The surface of the tail: a panel that faces the camera, the slope above it, edges that turn away all round.
 */
export const rearSurface = (shape: RearShape, scale: number): Surface => {
  const step = 1 / scale;
  const left = -26;
  const top = shape.roof + 1.5;
  const width = Math.ceil(52 * scale);
  const height = Math.ceil((top - shape.sill + 0.5) * scale);
  const surface = emptySurface({ width, height, scale, left, top });
  const reach = overRows(rearOutline(shape), height, top, step);
  for (let row = 0; row < height; row++) {
    const y = top - row * step;
    const edge = reach.to[row]!;
    if (edge <= 0) continue;
    const above = y > shape.deck;
    const s = above
      ? (y - shape.deck) / Math.max(1, shape.roof - shape.deck)
      : (y - shape.sill) / Math.max(1, shape.deck - shape.sill);
    const lean = above
      ? (shape.slope + (84 - shape.slope) * Math.max(0, (s - 0.72) / 0.28) ** 1.5) * radians
      : panel[Math.max(0, Math.min(256, (s * 256) | 0))]!;
    const turn = above ? 3.6 : 6.5;
    for (let column = 0; column < width; column++) {
      const x = left + column * step;
      const fromEdge = edge - Math.abs(x);
      if (fromEdge < -0.4) continue;
      const k = row * width + column;
      const t = Math.max(0, 1 - Math.max(0, fromEdge) / turn);
      const yaw = Math.sign(x) * (72 * t * t + 5 * (Math.abs(x) / Math.max(1, edge))) * radians;
      const ny = Math.sin(lean);
      const size = Math.sqrt(1 - ny * ny);
      surface.nx[k] = Math.max(-0.998, Math.min(0.998, Math.sin(yaw) * size));
      surface.ny[k] = ny * (0.6 + 0.4 * Math.cos(yaw));
      surface.exposed[k] =
        0.12 +
        0.7 * Math.max(0, 1 - fromEdge / 1.6) +
        (above ? 0 : 0.55 * Math.max(0, 1 - Math.abs(shape.deck - y) / 1.1));
      surface.open[k] = above ? 0.9 : 0.42 + 0.58 * Math.min(1, Math.max(0, s) * 4);
      surface.roof[k] = above && shape.hasRoof ? 1 : 0;
    }
  }
  return surface;
};
