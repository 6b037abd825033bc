import { gradeStep, unknownGradeSteps } from '../market/assumed-curve.ts';
import { packagingLog } from '../market/packaging-gain.ts';
import { partsLog } from '../market/part-loss.ts';
import { checkFinite } from '../statistics/check-input.ts';
import { eightyPercent } from '../statistics/normal.ts';
import type { AssumptionSet, GradeShare, Range, RestorationPlan, Subject, Worth } from '../types.ts';
import { type FinishState, finishStates, type Grade, grades } from '../words.ts';
import { gradesAfter } from '../work/grades-after.ts';
import { fidelityLog, plannedPartsLog, standingLog } from './fidelity.ts';
import type { Ladder } from './worth-ladder.ts';

const steps = grades.length;

/** A car's condition to be valued: what the grid brings each record to. */
export interface Condition {
  state: FinishState;
  step: number;
  gradeKnown: boolean;
  partsLog: number;
  fidelityLog: number;
  attainable: boolean;
}

const foundStep = (subject: Subject, assumptions: AssumptionSet) =>
  gradeStep(subject.grade ?? assumptions.unknownGrade);

/** The car as it stands. */
export const foundCondition = (subject: Subject, assumptions: AssumptionSet): Condition => ({
  state: subject.finishState,
  step: foundStep(subject, assumptions),
  gradeKnown: subject.grade !== null,
  partsLog: partsLog(subject.parts, assumptions.partLoss) + packagingLog(subject.parts, assumptions),
  fidelityLog: standingLog(subject, assumptions.deviationLoss),
  attainable: true,
});

/**
 * The best that cleaning and straightening can make of a car; what is better already has nothing to gain by
 * them. Common practice, no source.
 */
const bestByCare = gradeStep(8);

/** The car conserved: as it stands, at the grade that reversible care can reach. */
export const conservedCondition = (subject: Subject, assumptions: AssumptionSet): Condition => {
  const found = foundCondition(subject, assumptions);
  const gain = Math.round(assumptions.decision.conserveGain * 2);
  return { ...found, step: Math.max(found.step, Math.min(bestByCare, found.step + gain)) };
};

/**
 * The car with its factory finish at the grade that conserving can reach; attainable only while the
 * finish is there.
 */
export const originalCondition = (subject: Subject, assumptions: AssumptionSet): Condition => ({
  ...conservedCondition(subject, assumptions),
  state: 'original',
  // What its paint departs in is gone where it would have its factory finish.
  ...(subject.finishState !== 'original' && { fidelityLog: 0 }),
  attainable: subject.finishState === 'original',
});

/**
 * The grades in which a plan can end, the best first: its own, or what the workmanship of the assumptions
 * makes of its aim.
 */
export const plannedGrades = (plan: RestorationPlan, assumptions: AssumptionSet): readonly GradeShare[] =>
  plan.grades ?? gradesAfter(plan.targetGrade, plan.partsAfter, assumptions.work.workmanship);

/** What a plan leaves a car in, all but its grade. */
const plannedBesidesGrade = (plan: RestorationPlan, assumptions: AssumptionSet): Omit<Condition, 'step'> => ({
  state: plan.kind === 'customise' ? 'customised' : 'restored',
  gradeKnown: true,
  partsLog: plannedPartsLog(plan, assumptions) + packagingLog(plan.partsAfter, assumptions),
  fidelityLog: fidelityLog(plan, assumptions.deviationLoss),
  attainable: true,
});

/**
 * The car as its plan leaves it, at the grade aimed at unless another is given. A customised car's deviations
 * are what makes it custom, and are not counted again.
 */
export const plannedCondition = (
  plan: RestorationPlan,
  assumptions: AssumptionSet,
  grade: Grade = plan.targetGrade,
): Condition => ({ ...plannedBesidesGrade(plan, assumptions), step: gradeStep(grade) });

/** A condition in which work can end, and the chance of it. */
export interface PossibleEnd {
  condition: Condition;
  share: number;
}

/** The conditions in which a plan can end, the best first. */
export const plannedConditions = (plan: RestorationPlan, assumptions: AssumptionSet): PossibleEnd[] => {
  const besides = plannedBesidesGrade(plan, assumptions);
  return plannedGrades(plan, assumptions).map(({ grade, share }) => ({
    condition: { ...besides, step: gradeStep(grade) },
    share,
  }));
};

/** A worth as the mean and deviation of its log; `said` are the figures themselves where its owner gave them. */
export type WorthLogs = Pick<Worth, 'logMean' | 'logSd' | 'sharedSd' | 'saleSd'> &
  Partial<Pick<Worth, 'own' | 'attainable'>> & { said?: Range };

/**
 * A worth in whole minor units from a log price that is normal: its median, and its 80 % range
 * `exp(logMean ± 1.2816 · logSd)`. `sharedSd` is the part of the log spread that the worths of one car share.
 */
export const worthOfLogs = ({
  logMean,
  logSd,
  sharedSd,
  saleSd,
  own = false,
  attainable = true,
  said,
}: WorthLogs): Worth => {
  const low = said ? said.low : Math.round(Math.exp(logMean - eightyPercent * logSd));
  const mid = said ? said.mid : Math.round(Math.exp(logMean));
  const high = said ? said.high : Math.round(Math.exp(logMean + eightyPercent * logSd));
  // Two whole objects: one that is spread together takes several times as long, and there are some for each car.
  return saleSd === undefined
    ? { low, mid, high, logMean, logSd, sharedSd, own, attainable }
    : { low, mid, high, logMean, logSd, sharedSd, saleSd, own, attainable };
};

/**
 * One worth of several that are possible, each with its share: the lognormal of the same mean and variance of
 * the price itself, so that what is expected of it is exact. What they share with the other worths of the car
 * is pooled in proportion.
 */
export const mixedWorth = (possible: readonly { worth: WorthLogs; share: number }[]): Worth => {
  const [first] = possible;
  if (!first) throw new RangeError('a worth is mixed of at least one');
  if (possible.length === 1) return worthOfLogs(first.worth);
  // Relative to the largest, so that nothing overflows.
  let top = first.worth.logMean;
  for (const { worth } of possible) top = Math.max(top, worth.logMean);
  let mean = 0;
  let square = 0;
  let shared = 0;
  let sale = 0;
  for (const { worth, share } of possible) {
    const one = Math.exp(worth.logMean - top + worth.logSd ** 2 / 2);
    mean += share * one;
    square += share * one * one * Math.exp(worth.logSd ** 2);
    shared += share * worth.sharedSd ** 2;
    sale += share * Math.max(0, worth.logSd ** 2 - worth.sharedSd ** 2);
  }
  const variance = Math.max(0, Math.log(square / mean ** 2));
  const sd = Math.sqrt(variance);
  const { own, attainable } = first.worth;
  return worthOfLogs({
    logMean: Math.log(mean) + top - variance / 2,
    logSd: sd,
    sharedSd: Math.min(sd, Math.sqrt(shared)),
    saleSd: Math.min(sd, Math.sqrt(sale)),
    own,
    attainable,
  });
};

/** What work leads to, over the conditions in which it can end. */
export const worthOfEnds = (
  ends: readonly PossibleEnd[],
  appraise: (condition: Condition) => WorthLogs,
): Worth => mixedWorth(ends.map(({ condition, share }) => ({ worth: appraise(condition), share })));

/** Variance that an unknown grade adds to the log of a worth: by the slope of its ladder. */
export const gradeDoubt = (
  { mean, ungraded }: Pick<Ladder, 'mean' | 'ungraded'>,
  { state, step, gradeKnown }: Condition,
): number => {
  if (gradeKnown) return 0;
  const from = finishStates.indexOf(state) * steps;
  const down = Math.max(from, from + step - unknownGradeSteps);
  const up = Math.min(from + steps - 1, from + step + unknownGradeSteps);
  return (((mean[up]! - mean[down]!) / (up - down)) * ungraded.steps) ** 2 + ungraded.variance;
};

/**
 * Worth of a condition from the ladder of its variation; an unknown grade widens it by the slope of the
 * ladder around it.
 */
export const ladderLogs = (ladder: Ladder, condition: Condition): WorthLogs => {
  const at = finishStates.indexOf(condition.state) * steps + condition.step;
  const extra = gradeDoubt(ladder, condition);
  return {
    logMean:
      ladder.mean[at]! +
      condition.partsLog +
      condition.fidelityLog +
      (condition.gradeKnown ? 0 : ladder.ungraded.log),
    logSd: extra > 0 ? Math.sqrt(ladder.sd[at]! ** 2 + extra) : ladder.sd[at]!,
    sharedSd: extra > 0 ? Math.sqrt(ladder.shared[at]! ** 2 + extra) : ladder.shared[at]!,
    attainable: condition.attainable,
  };
};

/**
 * Worth of a condition from the owner's own figure for the car as found: brought to the condition by the
 * grade curves and factors, and as much less sure as `apart` says, the variance with which those are known;
 * low and high are read as an 80 % interval in logs.
 * Throws RangeError unless 0 < low ≤ mid ≤ high.
 */
export const ownLogs = (
  own: NonNullable<Subject['ownWorth']>,
  found: Condition,
  condition: Condition,
  { curve, apart }: { curve: Float64Array; apart: number },
): WorthLogs => {
  for (const key of ['low', 'mid', 'high'] as const) checkFinite(own[key], `own worth, ${key},`);
  if (!(own.low > 0 && own.low <= own.mid && own.mid <= own.high))
    throw new RangeError(`own worth must have 0 < low ≤ mid ≤ high, not ${own.low}, ${own.mid}, ${own.high}`);
  const cell = ({ state, step }: Condition) => curve[finishStates.indexOf(state) * steps + step]!;
  const brought =
    cell(condition) -
    cell(found) +
    condition.partsLog -
    found.partsLog +
    condition.fidelityLog -
    found.fidelityLog;
  const said = (Math.log(own.high) - Math.log(own.low)) / 2 / eightyPercent;
  const sd = Math.sqrt(said * said + apart);
  const same = condition.state === found.state && condition.step === found.step && brought === 0;
  return {
    logMean: Math.log(own.mid) + brought,
    logSd: sd,
    sharedSd: sd,
    own: true,
    attainable: condition.attainable,
    ...(same && { said: own }),
  };
};
