import type { VariationFeature } from '../../words.ts';
import { dialect } from '../dialect.ts';
import { sentenceCase } from '../reader.ts';

/** What the features of a variation are called, as a label begins: "Base paint". */
export const featureNames = (locale: string): Record<VariationFeature, string> => ({
  colour: sentenceCase(dialect(locale).colour),
  bodyFinish: 'Body finish',
  basePaint: 'Base paint',
  rearEnd: 'Rear end',
  roof: 'Roof',
  interior: 'Interior',
  glazing: 'Glazing',
  wheels: 'Wheels',
  accessory: 'Accessory',
  country: 'Country',
});
