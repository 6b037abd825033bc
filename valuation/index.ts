/**
 * The engine: pure functions over plain values. It knows no database, no clock and no randomness
 * but a given seed.
 */

export * from './calendar.ts';
export * from './choice/choose-cars.ts';
export * from './choice/choose-colours.ts';
export * from './choice/choose-season.ts';
export * from './choice/choose-under-limits.ts';
export type { Choice } from './choice/limits-model.ts';
export * from './choice/season-offer.ts';
export * from './choice/season-types.ts';
export * from './decision/at-hourly-rate.ts';
export * from './decision/break-even.ts';
export * from './decision/decide-car.ts';
export { type LookUp, lookUpNext } from './decision/look-up-next.ts';
export {
  type CarRecommendation,
  type OptionInShort,
  type OptionSummary,
  recommendCar,
} from './decision/recommend-car.ts';
export { seasonRange } from './decision/season-range.ts';
export * from './decision/turns-on.ts';
export { meanWorth } from './decision/weigh-option.ts';
export * from './default-assumptions.ts';
export * from './lots/costs-at-bid.ts';
export * from './lots/disposal-to-sale-record.ts';
export * from './lots/highest-bid.ts';
export * from './lots/lot-result.ts';
export * from './lots/lot-worth.ts';
export * from './lots/net-gain.ts';
export * from './lots/share-lot.ts';
export * from './lots/share-price.ts';
export * from './lots/sum-of-cars.ts';
export * from './lots/sum-worths.ts';
export * from './market/cpi-u.ts';
export { indexFactor } from './market/date-adjustment.ts';
export * from './market/fit-market.ts';
export type { FittedMarket } from './market/fitted-market.ts';
export * from './market/pool-evidence.ts';
export type { OwnAside } from './market/prepare-own.ts';
export type { SetAside } from './market/prepare-sales.ts';
export * from './money.ts';
export * from './statistics/beta-pert.ts';
export * from './statistics/buhlmann-straub.ts';
export type { CredibilityGroup } from './statistics/credibility-groups.ts';
export * from './statistics/exchange-gain.ts';
export * from './statistics/hierarchical-credibility.ts';
export * from './statistics/isotonic.ts';
export * from './statistics/least-squares.ts';
export * from './statistics/normal.ts';
export * from './statistics/quantile.ts';
export * from './types.ts';
export * from './words.ts';
export * from './work/learn-steps.ts';
export { stepsInOrder } from './work/order-steps.ts';
export * from './work/plan-from-car.ts';
export { startingSteps, startingStepsLabel } from './work/steps/index.ts';
export * from './worth/diagnostics.ts';
export * from './worth/explain-worth.ts';
export * from './worth/fidelity.ts';
export * from './worth/held-beliefs.ts';
export * from './worth/helpful-answers.ts';
export * from './worth/standard-plan.ts';
export * from './worth/value-car.ts';
