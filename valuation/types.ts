/** The plain values that the engine takes and gives. */

export type * from './types/assumptions.ts';
export type * from './types/decision.ts';
export type * from './types/market.ts';
export type * from './types/part-state.ts';
export type * from './types/subject.ts';
export type * from './types/time.ts';
export type * from './types/units.ts';
export type * from './types/work.ts';
export type * from './types/worth.ts';
