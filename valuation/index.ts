/** The engine: pure functions over plain values. It knows no database, no clock and no randomness but a given seed. */

export * from './beta-pert.ts';
export * from './buhlmann-straub.ts';
export * from './choose-under-limits.ts';
export * from './cpi-u.ts';
export type { CredibilityGroup } from './credibility-groups.ts';
export * from './exchange-gain.ts';
export * from './hierarchical-credibility.ts';
export * from './index-factor.ts';
export * from './isotonic.ts';
export * from './least-squares.ts';
export * from './money.ts';
export * from './net-gain.ts';
export * from './normal.ts';
export * from './quantile.ts';
export * from './share-price.ts';
export * from './types.ts';
export * from './words.ts';
