import { gradeStep } from '../market/assumed-curve.ts';
import type { FittedMarket } from '../market/fitted-market.ts';
import { betaPert, type ShapeQuantile, shapeQuantile } from '../statistics/beta-pert.ts';
import { lowDiscrepancy, mostDimensions } from '../statistics/low-discrepancy.ts';
import type { Guard, RestorationPlan, Subject, ThreePoint, Valuation, Worth } from '../types.ts';
import type { Option } from '../words.ts';
import { planFromCar } from '../work/plan-from-car.ts';
import { cachedOn, onceOn } from '../worth/cached-on.ts';
import {
  type Condition,
  conservedCondition,
  foundCondition,
  plannedWorth,
  worthOfLogs,
} from '../worth/car-worths.ts';
import { proposedPlan } from '../worth/standard-plan.ts';
import { appraiser } from '../worth/value-car.ts';
import { guardsAgainstPaint } from './guards.ts';
import { addCosts, type Cost, planComponents } from './plan-cost.ts';
import { drawWorths, type NormalPoints, normalPoints, type OptionInputs } from './weigh-option.ts';

/** Points of the sample: enough for probabilities to half a per cent. */
const sampleSize = 512;
const seed = 1;

export interface ConsideredOption extends OptionInputs {
  option: Exclude<Option, 'leave'>;
  guards: Guard[];
  /** What it is expected to take of the owner's own hours. */
  hours: number;
  /**
   * Set where it is only compared and never recommended. A custom car is a matter of taste, and there is no
   * way back from it: the engine does not propose one of its own accord.
   */
  note: 'only-compared' | null;
}

type Undrawn = Omit<ConsideredOption, 'draws'>;

const samplePoints = onceOn((): NormalPoints => normalPoints(lowDiscrepancy(sampleSize, 2, seed)));

/** The first two dimensions are the worths'; a cost's draws must not go with them. */
const costDimensions = mostDimensions - 2;

const costNet = onceOn(() => lowDiscrepancy(sampleSize, mostDimensions, seed).slice(2));

/**
 * Coordinates for any number of costs: beyond the net's dimensions they come again, taken in another order.
 */
const costPoints = (fitted: FittedMarket, components: number): Float64Array[] => {
  const net = costNet(fitted);
  return Array.from({ length: Math.max(1, components) }, (_, k) => {
    const turn = Math.floor(k / costDimensions);
    const points = net[k % costDimensions]!;
    // An odd stride visits every place of a power of two once.
    return turn === 0 ? points : points.map((_, i) => points[(i * (2 * turn * 37 + 1)) % sampleSize]!);
  });
};

/** Shapes held at most; one quantile for each point of the sample. */
const shapes = cachedOn<number, Map<number, number>>(500);

/** Lines are of few shapes, and every coordinate holds the same probabilities: each is worked out once. */
const heldShapes =
  (fitted: FittedMarket): ShapeQuantile =>
  (p, alpha) => {
    const shape = shapes(fitted, alpha, () => new Map());
    const found = shape.get(p);
    if (found !== undefined) return found;
    const x = shapeQuantile(p, alpha);
    shape.set(p, x);
    return x;
  };

/** Costs held at most; some four kilobytes each. */
const mostCached = 5000;
const costs = cachedOn<string, Cost>(mostCached);
const draws = cachedOn<string, Float64Array>(mostCached);

/** The draws of one cost at one place of the sample. */
const drawsOf = (fitted: FittedMarket, one: ThreePoint, points: Float64Array, place: number): Float64Array =>
  draws(fitted, `${one.low} ${one.likely} ${one.high} @${place}`, () => {
    const { quantile } = betaPert(one.low, one.likely, one.high, heldShapes(fitted));
    return points.map(quantile);
  });

/** Costs of a kind recur over the cars of a collection: each is drawn once. */
const costOf = (fitted: FittedMarket, components: ThreePoint[]): Cost => {
  const key = components.map(({ low, likely, high }) => `${low} ${likely} ${high}`).join();
  return costs(fitted, key, () => {
    const points = costPoints(fitted, components.length);
    return addCosts(components, points, (one, k) => drawsOf(fitted, one, points[k]!, k));
  });
};

const meanOf = ({ low, likely, high }: ThreePoint): number => betaPert(low, likely, high).mean;

/**
 * What is left of a worth for a car kept for its parts: a share of the worth of a complete one at
 * the usual grade.
 */
const donorWorth = (complete: Worth, share: number, found: Condition): Worth =>
  worthOfLogs({
    ...complete,
    logMean: complete.logMean + Math.log(Math.max(share, 1e-6)) + found.partsLog,
    attainable: true,
  });

/**
 * The ways to treat a car besides leaving it, each with the worth that it leads to, its cost and its guards:
 * conserve, restore, customise, use as a donor. The car's own plan stands for its kind; the proposed plan for
 * the others. Null where nothing can be valued.
 */
export const consideredOptions = (
  fitted: FittedMarket,
  subject: Subject,
  valuation: Valuation,
): ConsideredOption[] | null => {
  const { assumptions } = fitted;
  const { decision, hourlyRate, standardPlan: usual, work } = assumptions;
  const appraise = appraiser(fitted, subject);
  const { asFound: found, restored } = valuation;
  if (!appraise || !found || !restored) return null;
  const guards = guardsAgainstPaint(fitted, subject);
  const common = { found, fees: decision.sellingFees, correlation: decision.worthCorrelation };
  const ownPlan = subject.plan ?? proposedPlan(subject, assumptions);
  const paint = (kind: RestorationPlan['kind']): Undrawn => {
    const plan = ownPlan.kind === kind ? ownPlan : proposedPlan(subject, assumptions, kind);
    return {
      ...common,
      option: kind,
      hours: meanOf(plan.hours),
      after: ownPlan.kind === kind ? restored : plannedWorth(plan, assumptions, appraise),
      cost: costOf(fitted, planComponents(plan, hourlyRate)),
      spoilChance: plan.spoilChance,
      spoiledShare: plan.spoiledShare,
      guards,
      note: kind === 'customise' && ownPlan.kind !== kind ? 'only-compared' : null,
    };
  };
  type Careful = Pick<
    ConsideredOption,
    'cost' | 'hours' | 'spoilChance' | 'spoiledShare' | 'guards' | 'note'
  >;
  const careful = (kind: 'conserve' | 'donor'): Careful => {
    const made =
      subject.care?.[kind] ?? (work.plansFrom === 'car' ? planFromCar(subject, assumptions, kind) : null);
    const { hours, cost } = made ?? usual[kind];
    return {
      cost: costOf(
        fitted,
        planComponents({ hours, lines: [{ name: '', kind: 'material', cost }] }, hourlyRate),
      ),
      hours: meanOf(hours),
      spoilChance: made?.spoilChance ?? 0,
      spoiledShare: made?.spoiledShare ?? 1,
      guards: [],
      note: null,
    };
  };
  const condition = foundCondition(subject, assumptions);
  const complete = appraise({
    ...condition,
    state: 'original',
    step: gradeStep(assumptions.unknownGrade),
    gradeKnown: true,
    partsLog: 0,
  });
  const options: Undrawn[] = [
    {
      ...common,
      ...careful('conserve'),
      option: 'conserve',
      after:
        subject.finishState === 'original' && valuation.originalFinish
          ? valuation.originalFinish
          : appraise(conservedCondition(subject, assumptions)),
    },
    paint('restore'),
    paint('customise'),
    {
      ...common,
      ...careful('donor'),
      option: 'donor',
      after: donorWorth(complete, decision.donorShare, condition),
    },
  ];
  const points = samplePoints(fitted);
  return options.map(option => ({
    ...option,
    draws: drawWorths(found, option.after, decision.worthCorrelation, points),
  }));
};
