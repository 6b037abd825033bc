/** What the procedures answer about the work on cars. */
import type { Call, JobPhoto } from '../../../db/records/bench/job-details.ts';
import type { Job } from '../../../db/records/bench/jobs.ts';
import type { Season, SeasonCar } from '../../../db/records/decisions/seasons.ts';
import type {
  Fidelity,
  FinishState,
  Grade,
  IsoDate,
  Learned,
  LearnedStep,
  Minor,
  OptionResult,
  PlanWishes,
  ShelfPart,
  ThreePoint,
  WorkPlan,
  WorkStep,
} from '../../../valuation/index.ts';
import type { WorkKind } from '../../../valuation/words.ts';
import type { LookItem } from '../../../valuation/work/look-before-closing.ts';
import type { Features } from './shared.ts';

/** The steps in force: the owner's newest version, or the project's starting points (version 0). */
export interface StepsView {
  version: number;
  /** Where they come from. */
  label: string;
  note: string;
  madeAt: string | null;
  steps: readonly WorkStep[];
}

export interface SeasonView extends Omit<Season, 'cars'> {
  cars: (SeasonCar & {
    inventoryNumber: string;
    /** Of the colour that was proposed for it. */
    swatch: string | null;
    /**
     * When work on it was finished after the season was made, and the hours that it took; null where it is
     * not or they are not known.
     */
    finishedOn: IsoDate | null;
    hoursTaken: number | null;
    onBench: boolean;
    /**
     * Of a finished car, in the season's currency: what was spent on it since the season was made, what it is
     * worth as it is now, or brought when it was sold, and what that is above its value as found and what was
     * spent. Null where one of these is not known.
     */
    spent: Minor | null;
    now: Minor | null;
    brought: Minor | null;
  })[];
}

/** A job with what the bench shows of its car. */
export interface JobView extends Job {
  inventoryNumber: string;
  casting: string | null;
  features: Features;
  wornColour: string;
  /** Of the colour that it wears, and of the one that it is to be painted in. */
  swatch: string | null;
  paintSwatch: string | null;
  grade: Grade | null;
  finishState: FinishState;
  photo: string | null;
  /** The season that it belongs to. */
  season: string | null;
  notes: string;
  who: string;
  /** What to look at before it is closed, and the keys of what was looked at. */
  lookList: LookItem[];
  lookedAt: string[];
  /** How its casting is put together. */
  assembly: string;
  photos: Omit<JobPhoto, 'jobId'>[];
}

/** A car's plan: what is to be done, what it was made of, and what it would bring. */
export interface CarPlanView {
  kind: WorkKind;
  plan: WorkPlan;
  wishes: PlanWishes;
  /** The version of the steps that it is made of; 0 for the starting steps. */
  libraryVersion: number;
  notes: string;
  /** What is saved for the car: nothing, a plan written down in figures, or one made from the car. */
  saved: 'nothing' | 'figures' | 'steps';
  /**
   * Set where the car or its shelf has changed since the plan was saved: what was saved then, which still
   * counts.
   */
  before: { hours: ThreePoint; cost: ThreePoint } | null;
  /** What comes of it: cost, worth, gain with its chance; null where there is not enough evidence. */
  outcome: OptionResult | null;
  fidelity: Fidelity | null;
  /** Steps of its kind that it does not have, by key. */
  more: { id: string; name: string }[];
  shelf: ShelfPart[];
}

/** A template, or a car whose work can be done again. */
export interface PlanSource {
  /** Of the template; null for a car. */
  id: number | null;
  carId: number | null;
  name: string;
  kind: WorkKind;
  wishes: PlanWishes;
}

/** How many cars on the shelf wear a colour. */
export interface ColourOnShelf {
  colour: string;
  swatch: string | null;
  count: number;
}

/** Colours that are proposed for cars of a season. */
export interface SeasonColours {
  cars: {
    carId: number;
    inventoryNumber: string;
    /** What it was made in; empty where that is not known. */
    own: string;
    colour: string;
    swatch: string | null;
    standing: 'own' | 'factory' | 'other';
    /** Share of a restoration to specification that is left, in its own colour and in this one. */
    fidelity: { own: number; painted: number };
    /** What this colour takes from what it would bring, in minor units. */
    cost: Minor;
  }[];
  /** Numbers of cars that keep their own colour because factory finish is left on them. */
  kept: string[];
  before: ColourOnShelf[];
  after: ColourOnShelf[];
  /** Pairs of cars in one colour. */
  pairs: { before: number; after: number };
}

/** What the owner's own jobs say, where it is not in force yet. */
/** A finished job beside its plan. Hours by hand; materials in the reporting currency. */
export interface DoneJob {
  carId: number;
  inventoryNumber: string;
  /** What has become of its finish. */
  finishState: FinishState;
  endedAt: string | null;
  plannedHours: number;
  /** Null where no time was counted. */
  takenHours: number | null;
  /** What its plan was expected to cost in materials and parts; null where it is not known any more. */
  plannedCost: Minor | null;
  takenCost: Minor;
  aim: Grade | null;
  reached: Grade | null;
  /** Names of the steps at which something went wrong. */
  spoiledAt: string[];
}

/**
 * A step over the finished jobs. Minutes are of those that were timed; costs are means of those that have
 * any.
 */
export interface DoneOfStep {
  id: string;
  name: string;
  done: number;
  timed: number;
  plannedMinutes: number;
  takenMinutes: number | null;
  plannedCost: Minor;
  takenCost: Minor | null;
  spoiled: number;
}

export interface LearnedView {
  /** Finished jobs, and the hours that were planned for them and that were counted. */
  jobs: number;
  planned: number;
  taken: number;
  /** The finished jobs, the newest first: what was planned for each, and what it came to. */
  byJob: DoneJob[];
  /** The same by step, over all finished jobs that it was done on; minutes only of those that were timed. */
  byStep: DoneOfStep[];
  steps: LearnedStep[];
  /** How far work falls short of what was aimed at. */
  workmanship: Learned<{ short: number; share: number }[]> | null;
}

/** A car that is kept for its parts. */
export interface DonorView {
  id: number;
  inventoryNumber: string;
  casting: string | null;
}

export type CallView = Call;
