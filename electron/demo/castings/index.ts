import { journeymen } from './journeymen.ts';
import { lamplighters } from './lamplighters.ts';
import { nightFair } from './night-fair.ts';
import { slipwinds } from './slipwinds.ts';

/** Everything that Quillon Toys of Wrenmoor made, range by range. */
export const seriesPlans = [lamplighters, journeymen, slipwinds, nightFair];
export type { BodyType, CastingPlan, FeaturePlan } from './plan.ts';
