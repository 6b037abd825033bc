import { type VariationFeature, variationFeatures } from '../words.ts';

/** The column that names each feature, in lists and in what was written. */
export const featureColumns = {
  colour: 'colour',
  bodyFinish: 'body_finish',
  basePaint: 'base_paint',
  rearEnd: 'rear_end',
  roof: 'roof',
  interior: 'interior',
  glazing: 'glazing',
  wheels: 'wheels',
  accessory: 'accessory',
  country: 'country',
} as const satisfies Record<VariationFeature, string>;
export type FeatureColumn = (typeof featureColumns)[VariationFeature];

/** The columns of all features in their order, but for one that is left out. */
export const featureColumnsBut = <Left extends FeatureColumn>(left: Left): Exclude<FeatureColumn, Left>[] =>
  variationFeatures
    .map(feature => featureColumns[feature])
    .filter((column): column is Exclude<FeatureColumn, Left> => column !== left);
