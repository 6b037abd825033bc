import type { VariationFeature } from '../../../valuation/words.ts';

/** How the features of a variation are called on this screen. */
export const featureWords: Record<VariationFeature, string> = {
  colour: 'Colour',
  bodyFinish: 'Body finish',
  basePaint: 'Base paint',
  rearEnd: 'Rear end',
  roof: 'Roof',
  interior: 'Interior',
  glazing: 'Glazing',
  wheels: 'Wheels',
  accessory: 'Accessory',
  country: 'Country',
};
