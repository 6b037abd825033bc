import type { ThreePoint, WorkStep } from '../../types.ts';

const none: ThreePoint = { low: 0, likely: 0, high: 0 };

/** Low, likely and high of a step's minutes or of a share of material in cents. */
export const three = (low: number, likely: number, high: number): ThreePoint => ({ low, likely, high });

type Given = Pick<WorkStep, 'id' | 'name' | 'kinds' | 'hands'> & Partial<WorkStep>;

/**
 * A step with what it leaves unsaid: about the whole car, called for by its kind alone,
 * harmless, without materials.
 */
export const step = (given: Given): WorkStep => ({
  part: null,
  call: {},
  after: [],
  waiting: none,
  materials: [],
  hazards: [],
  spoilChance: 0,
  spoiledShare: 1,
  grade: null,
  leaves: null,
  takes: [],
  buys: null,
  insteadOf: [],
  brings: [],
  ...given,
});

/** Work that paints the car. */
export const paints = ['restore', 'customise'] as const;
/** Work that opens the car. */
export const opens = ['restore', 'customise', 'donor'] as const;
