import type { ThreePoint, WorkStep } from '../types.ts';
import type { Grade } from '../words.ts';

/** A step as it was done on a job of the owner's. */
export interface DoneStep {
  /** Key of the step. */
  id: string;
  /** Minutes that it took; null where they were not counted. */
  minutes: number | null;
  /** What was used on it, in minor units; null where nothing was written down. */
  cost: number | null;
  spoiled: boolean;
}

/**
 * What own jobs say of one figure: how many there are, what they weigh (0…1) against the figure as it stands,
 * and the figure that follows.
 */
export interface Learned<T> {
  jobs: number;
  credibility: number;
  /** What the jobs say by themselves. */
  own: number;
  before: T;
  after: T;
}

export interface LearnedStep {
  id: string;
  name: string;
  /** Absent where no job tells of it. */
  hands?: Learned<ThreePoint>;
  cost?: Learned<ThreePoint>;
  spoilChance?: Learned<number>;
}

/** Jobs that weigh as much as the figure as it stands: 6 jobs then weigh 70 %. Common practice, no source. */
const jobsForTimes = 2.5;
/** The same for a chance of spoiling, of which a few jobs tell little. */
const jobsForSpoiling = 50;
/** The same for how far work falls short of what was aimed at. */
const jobsForGrades = 10;

/** Weight of `jobs` of one's own, of Bühlmann's form n / (n + k). */
export const credibilityOf = (jobs: number, k = jobsForTimes): number => (jobs <= 0 ? 0 : jobs / (jobs + k));

const mean = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0) / values.length;

/** Low, likely and high moved by one factor, whole and rising. */
const scaled = ({ low, likely, high }: ThreePoint, factor: number): ThreePoint => {
  const middle = Math.max(0, Math.round(likely * factor));
  return {
    low: Math.min(middle, Math.max(0, Math.round(low * factor))),
    likely: middle,
    high: Math.max(middle, Math.round(high * factor)),
  };
};

/**
 * Moves a figure of three towards what own jobs took, by credibility, in logs: the likely one becomes m^(1−Z)
 * · x^Z, where x is the geometric mean of the jobs. Undefined where no job tells, or the figure is nothing,
 * which no factor moves.
 */
const learnThree = (before: ThreePoint, taken: readonly number[]): Learned<ThreePoint> | undefined => {
  const counted = taken.filter(one => one > 0);
  if (counted.length === 0 || before.likely <= 0) return undefined;
  const own = Math.exp(mean(counted.map(Math.log)));
  const credibility = credibilityOf(counted.length);
  return {
    jobs: counted.length,
    credibility,
    own,
    before,
    after: scaled(before, (own / before.likely) ** credibility),
  };
};

/**
 * What own jobs say of steps: minutes, materials and how often they spoiled a car, each moved by credibility
 * from where it stands. Steps of which no job tells are left out. Deterministic; the order of the jobs does
 * not matter.
 */
export const learnSteps = (steps: readonly WorkStep[], done: readonly DoneStep[]): LearnedStep[] => {
  const byStep = Map.groupBy(done, ({ id }) => id);
  return steps.flatMap(({ id, name, hands, materials, spoilChance }) => {
    const jobs = byStep.get(id) ?? [];
    if (jobs.length === 0) return [];
    const times = learnThree(
      hands,
      jobs.flatMap(({ minutes }) => minutes ?? []),
    );
    const costs = learnThree(
      {
        low: materials.reduce((sum, { cost }) => sum + cost.low, 0),
        likely: materials.reduce((sum, { cost }) => sum + cost.likely, 0),
        high: materials.reduce((sum, { cost }) => sum + cost.high, 0),
      },
      jobs.flatMap(({ cost }) => cost ?? []),
    );
    const often = jobs.filter(({ spoiled }) => spoiled).length / jobs.length;
    const credibility = credibilityOf(jobs.length, jobsForSpoiling);
    const chance = Math.round(((1 - credibility) * spoilChance + credibility * often) * 1e4) / 1e4;
    const spoiling: Learned<number> = {
      jobs: jobs.length,
      credibility,
      own: often,
      before: spoilChance,
      after: chance,
    };
    return [
      {
        id,
        name,
        ...(times && { hands: times }),
        ...(costs && { cost: costs }),
        ...(chance !== spoilChance && { spoilChance: spoiling }),
      },
    ];
  });
};

/** The steps with what was learned of some of them; the others stay as they are. */
export const withLearned = (steps: readonly WorkStep[], learned: readonly LearnedStep[]): WorkStep[] => {
  const byStep = new Map(learned.map(one => [one.id, one]));
  return steps.map(step => {
    const found = byStep.get(step.id);
    if (!found) return step;
    const { hands, cost, spoilChance } = found;
    const factor = cost && cost.before.likely > 0 ? cost.after.likely / cost.before.likely : 1;
    return {
      ...step,
      ...(hands && { hands: hands.after }),
      ...(cost && { materials: step.materials.map(one => ({ ...one, cost: scaled(one.cost, factor) })) }),
      ...(spoilChance && { spoilChance: spoilChance.after }),
    };
  });
};

type Workmanship = { short: number; share: number }[];

/**
 * How far own work fell short of what was aimed at, moved by credibility: share = (1 − Z) · share as it
 * stands + Z · share of the jobs. Work that came out better than aimed at fell short by nothing. Undefined
 * where no job tells.
 */
export const learnWorkmanship = (
  before: Workmanship,
  jobs: readonly { aim: Grade; reached: Grade }[],
): Learned<Workmanship> | undefined => {
  if (jobs.length === 0) return undefined;
  const shorts = jobs.map(({ aim, reached }) => Math.max(0, aim - reached));
  const credibility = credibilityOf(jobs.length, jobsForGrades);
  const all = [...new Set([...before.map(({ short }) => short), ...shorts])].sort((a, b) => a - b);
  const after = all.map(short => ({
    short,
    share:
      (1 - credibility) * (before.find(one => one.short === short)?.share ?? 0) +
      (credibility * shorts.filter(one => one === short).length) / jobs.length,
  }));
  return { jobs: jobs.length, credibility, own: mean(shorts), before, after };
};

/** The mean grade that work falls short by. */
export const meanShort = (shares: Workmanship): number =>
  shares.reduce((sum, { short, share }) => sum + short * share, 0);
