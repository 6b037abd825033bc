import type { DecidePoints, DecisionSummary } from '../../../../electron/api/views.ts';
import type { Minor } from '../../../../valuation/types.ts';
import { type Recommendation, recommendations } from '../../../../valuation/words.ts';
import type { GainScale } from './gain-scale.ts';

/** A car in the chart: where it stands, in pixels of the plot, how large, and under which mark. */
export interface Dot {
  id: number;
  x: number;
  y: number;
  /** Radius in pixels; its area goes with the cost. */
  r: number;
  recommendation: Recommendation;
  /** For how many cars it stands, itself among them. */
  cars: number;
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

/** The dots of the chart, and that of the car under the cursor; the largest first, so that small ones lie on top. */
export const dotsOf = (
  points: DecidePoints,
  at: DecisionSummary | null,
  gain: GainScale,
  probability: ProbabilityScale,
  { width, height }: PlotSize,
): Dot[] => {
  const place = (expectedGain: Minor, chance: number, cost: Minor) => ({
    x: gain.at(expectedGain) * width,
    y: probability.at(chance, height),
    r: radiusOf(cost, points.highestCost, points.weighed),
  });
  const dots = points.ids.map((id, i): Dot => {
    const [of = 0, chance = 0, cost = 0] = [points.gains[i], points.probabilities[i], points.costs[i]];
    const recommendation = recommendations[points.recommendations[i] ?? 0] ?? 'leave';
    return { id, ...place(of, chance, cost), recommendation, cars: points.cars[i] ?? 1 };
  });
  const isThere = at === null || points.ids.includes(at.car.id);
  if (!isThere && at.shown && at.car.recommendation) {
    const { expectedGain, probability: chance, cost } = at.shown;
    const { id, recommendation } = at.car;
    dots.push({ id, ...place(expectedGain, chance, cost.mid), recommendation, cars: 1 });
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
