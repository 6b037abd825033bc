import { type Recommendation, recommendations } from '../../../../valuation/words.ts';
import type { Dot, PlotSize } from './dots.ts';

/** The colours of the marks and of the ring, read from the page, so that they follow its scheme. */
export interface DotColours {
  marks: Record<Recommendation, string>;
  ring: string;
}

export const readColours = (element: Element): DotColours => {
  const style = getComputedStyle(element);
  const token = (name: string) => style.getPropertyValue(`--${name}`).trim();
  return {
    marks: {
      leave: token('ink-soft'),
      conserve: token('worth-restored'),
      restore: token('worth-restored'),
      customise: token('worth-original'),
      donor: token('worth-found'),
      'not-enough-evidence': token('ink-soft'),
    },
    ring: token('ink'),
  };
};

/** A mark's outline around nothing, of radius 1; the shapes are those of the recommendation marks. */
const outlines: Record<Recommendation, (path: Path2D) => void> = {
  leave: path => path.arc(0, 0, 0.9, 0, 2 * Math.PI),
  conserve: path => path.arc(0, 0, 0.9, Math.PI / 2, (3 * Math.PI) / 2),
  restore: path => {
    path.moveTo(0, -1.15);
    path.lineTo(1.1, 0.8);
    path.lineTo(-1.1, 0.8);
    path.closePath();
  },
  customise: path => {
    path.moveTo(0, -1.2);
    path.lineTo(1.2, 0);
    path.lineTo(0, 1.2);
    path.lineTo(-1.2, 0);
    path.closePath();
  },
  donor: path => path.rect(-0.85, -0.85, 1.7, 1.7),
  'not-enough-evidence': path => path.arc(0, 0, 0.9, 0, 2 * Math.PI),
};

const pathsOf = (): Map<Recommendation, Path2D> =>
  new Map(
    recommendations.map(recommendation => {
      const path = new Path2D();
      outlines[recommendation](path);
      return [recommendation, path];
    }),
  );

/** An empty canvas as large as the plot and as fine as the display. */
const cleared = (canvas: HTMLCanvasElement, { width, height }: PlotSize) => {
  const density = window.devicePixelRatio || 1;
  canvas.width = Math.round(width * density);
  canvas.height = Math.round(height * density);
  return { context: canvas.getContext('2d'), density };
};

/** How dark a mark is among many: the darker, the more cars it stands for. */
const depthOf = (cars: number): number => Math.min(0.95, 0.36 + 0.1 * Math.log2(cars));

/** Draws all dots. Thousands take some tens of milliseconds, and only when they change. */
export const drawDots = (
  canvas: HTMLCanvasElement,
  dots: readonly Dot[],
  size: PlotSize,
  { marks }: DotColours,
  isCrowded: boolean,
): void => {
  const { context, density } = cleared(canvas, size);
  if (!context) return;
  const paths = pathsOf();
  for (const { x, y, r, recommendation, cars } of dots) {
    const path = paths.get(recommendation);
    if (!path) continue;
    context.setTransform(density * r, 0, 0, density * r, density * x, density * y);
    context.fillStyle = marks[recommendation];
    context.strokeStyle = marks[recommendation];
    context.globalAlpha = isCrowded ? depthOf(cars) : 0.78;
    context.fill(path);
    if (recommendation === 'conserve') {
      context.globalAlpha = isCrowded ? depthOf(cars) : 0.9;
      context.lineWidth = 1.1 / r;
      context.stroke(paths.get('leave') ?? path);
    }
  }
};

/**
 * Draws a ring around each dot of the season, on a sheet of its own: going in and out must not
 * draw all dots again.
 */
export const drawRings = (
  canvas: HTMLCanvasElement,
  dots: readonly Dot[],
  size: PlotSize,
  { ringed, ring }: { ringed: ReadonlySet<number>; ring: string },
): void => {
  const { context, density } = cleared(canvas, size);
  if (!context) return;
  context.setTransform(density, 0, 0, density, 0, 0);
  context.strokeStyle = ring;
  context.lineWidth = 1.5;
  for (const { id, x, y, r } of dots) {
    if (!ringed.has(id)) continue;
    context.beginPath();
    context.arc(x, y, r + 3.5, 0, 2 * Math.PI);
    context.stroke();
  }
};
