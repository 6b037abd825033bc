import type { DecisionSummary } from '../../../../electron/api/views.ts';
import type { Minor } from '../../../../valuation/types.ts';
import type { Recommendation } from '../../../../valuation/words.ts';
import type { GainScale } from './gain-scale.ts';

/** A car in the chart: where it stands, in pixels of the plot, how large, and under which mark. */
export interface Dot {
  id: number;
  x: number;
  y: number;
  /** Radius in pixels; its area goes with the cost. */
  r: number;
  recommendation: Recommendation;
  weighed: DecisionSummary;
}

export interface PlotSize {
  width: number;
  height: number;
}

/** Above so many the dots are drawn small and thin, so that where they crowd shows as depth. */
export const crowd = 2000;

const least = 4;

/** The radius for a cost: its area in proportion, above a least size. */
export const radiusOf = (cost: Minor, highest: Minor, count: number): number => {
  const most = count > crowd ? 5 : count > 400 ? 8 : 11;
  const smallest = count > crowd ? 2 : least;
  return Math.sqrt(smallest ** 2 + (highest > 0 ? (cost / highest) * (most ** 2 - smallest ** 2) : 0));
};

/** An axis of probabilities from `low` to certain, and its lines. */
export interface ProbabilityScale {
  /** Pixels from the top, with air for the dots at both ends. */
  at: (probability: number, height: number) => number;
  ticks: number[];
}

/**
 * The axis begins at the last quarter below the floor and every car, so that what is empty
 * beneath takes no room.
 */
export const probabilityScale = (probabilities: readonly number[], floor: number): ProbabilityScale => {
  let lowest = floor - 0.08;
  for (const probability of probabilities) if (probability < lowest) lowest = probability;
  const low = Math.max(0, Math.floor(lowest * 4) / 4);
  const step = low >= 0.5 ? 0.1 : 0.25;
  const ticks: number[] = [];
  for (let tick = 1; tick >= low - 1e-9; tick -= step) ticks.push(Math.round(tick * 100) / 100);
  return { at: (probability, height) => height * (0.97 - (0.94 * (probability - low)) / (1 - low)), ticks };
};

/** The dots of the cars that could be weighed, the largest first, so that small ones lie on top. */
export const dotsOf = (
  cars: readonly DecisionSummary[],
  gain: GainScale,
  probability: ProbabilityScale,
  { width, height }: PlotSize,
): Dot[] => {
  const highest = cars.reduce((most, { shown }) => Math.max(most, shown?.cost.mid ?? 0), 0);
  const dots: Dot[] = [];
  for (const weighed of cars) {
    const { car, shown } = weighed;
    if (!shown || !car.recommendation) continue;
    dots.push({
      id: car.id,
      x: gain.at(shown.expectedGain) * width,
      y: probability.at(shown.probability, height),
      r: radiusOf(shown.cost.mid, highest, cars.length),
      recommendation: car.recommendation,
      weighed,
    });
  }
  return dots.sort((a, b) => b.r - a.r);
};

/** The dot under the pointer: the nearest within reach; of equals the one drawn on top. */
export const dotAt = (dots: readonly Dot[], x: number, y: number, reach = 8): Dot | null => {
  let found: Dot | null = null;
  let nearest = Number.POSITIVE_INFINITY;
  for (const dot of dots) {
    const away = Math.hypot(dot.x - x, dot.y - y);
    if (away <= Math.max(dot.r, reach) && away <= nearest) {
      nearest = away;
      found = dot;
    }
  }
  return found;
};

export type Direction = 'left' | 'right' | 'up' | 'down';

/**
 * How far along a direction a step goes, and how far aside, clockwise; the four are quarter
 * turns of one another.
 */
const ahead: Record<Direction, (dx: number, dy: number) => [along: number, aside: number]> = {
  right: (dx, dy) => [dx, dy],
  down: (dx, dy) => [dy, -dx],
  left: (dx, dy) => [-dx, -dy],
  up: (dx, dy) => [-dy, dx],
};

/**
 * The next dot in a direction: the nearest (along plus aside) in the quarter of the plot that lies that way;
 * where that is empty, the nearest of all that lie that way at all. Of dots on one spot each is met in turn.
 *
 * No dot is missed: heading for it by the quarter in which it lies, no step leads further from it, and
 * within finitely many one leads nearer. This needs each diagonal to belong to one quarter alone, and a dot
 * on it to win a tie.
 */
export const nextDot = (dots: readonly Dot[], from: Dot, direction: Direction): Dot | null => {
  const here = dots.indexOf(from);
  // Dots that cover one another are one step apart, in the order in which they are drawn.
  const step = direction === 'right' || direction === 'up' ? 1 : -1;
  for (let i = here + step; i >= 0 && i < dots.length; i += step) {
    const dot = dots[i];
    if (dot && dot.x === from.x && dot.y === from.y) return dot;
  }
  let inside: Dot | null = null;
  let nearest = Number.POSITIVE_INFINITY;
  let leastAside = Number.POSITIVE_INFINITY;
  let beside: Dot | null = null;
  let besideNearest = Number.POSITIVE_INFINITY;
  for (const dot of dots) {
    const [along, aside] = ahead[direction](dot.x - from.x, dot.y - from.y);
    if (along <= 0) continue;
    if (aside < along && aside >= -along) {
      const far = along + Math.abs(aside);
      if (far > nearest || (far === nearest && aside >= leastAside)) continue;
      inside = dot;
      nearest = far;
      leastAside = aside;
    } else {
      const far = along + 2 * Math.abs(aside);
      if (far >= besideNearest) continue;
      beside = dot;
      besideNearest = far;
    }
  }
  return inside ?? beside;
};
