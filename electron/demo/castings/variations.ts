import type { BasePaint, Rarity, VariationFeature } from '../../../valuation/words.ts';
import { type Random, randomFrom } from '../random.ts';
import { colourNamed } from './colours.ts';
import type { CastingPlan, FeaturePlan } from './index.ts';

export interface DemoFeatures extends Record<VariationFeature, string> {
  basePaint: BasePaint;
}

export interface DemoVariation {
  id: number;
  castingId: number;
  seriesId: number;
  releaseId: number;
  casting: string;
  releaseName: string;
  year: number;
  features: DemoFeatures;
  rarity: Rarity;
  specification: string;
  notes: string;
}

type Made = Omit<DemoVariation, 'id' | 'castingId' | 'seriesId' | 'releaseId'>;

/** Features besides colour that can tell a casting's variations apart, beside base paint and rear end. */
const minor = ['roof', 'interior', 'glazing', 'wheels', 'country', 'accessory'] as const;
type MinorFeature = (typeof minor)[number];
const plural: Record<MinorFeature, keyof FeaturePlan> = {
  roof: 'roofs',
  interior: 'interiors',
  glazing: 'glazings',
  wheels: 'wheels',
  country: 'countries',
  accessory: 'accessories',
};

/**
 * The variations of one release. A casting differs in colour, base paint, rear end and two features more; the
 * others stay at their usual value, as a maker changes what its suppliers change, not everything at once.
 */
export const variationsOf = (
  plan: CastingPlan,
  { name: releaseName, year, features }: { name: string; year: number; features: FeaturePlan },
  first: boolean,
): Made[] => {
  const choice = randomFrom(`features ${plan.name}`);
  const changing = choice.shuffle(minor.filter(one => plan[plural[one]].length > 1)).slice(0, 2);
  const random = randomFrom(`variations ${releaseName}`);
  const wanted = first ? (plan.colours.length >= 5 ? 5 : 4) : 3;
  const made: DemoFeatures[] = [];
  const keys = new Set<string>();
  for (let i = 0; made.length < wanted; i++) {
    const colour =
      features.colours[made.length === wanted - 1 && first ? 0 : made.length % features.colours.length]!;
    const one = drawFeatures(random, features, { changing, colour, attempt: i });
    const key = JSON.stringify(one);
    if (keys.has(key)) continue;
    keys.add(key);
    made.push(one);
  }
  return made.map((one, i) => ({
    casting: plan.name,
    releaseName,
    year,
    features: one,
    rarity: rarityOf(random, one, i, wanted),
    specification: specify(plan, one, year),
    notes: '',
  }));
};

/**
 * Mostly the usual value; the further attempts stray more, so that a repeated colour differs in something.
 */
const drawFeatures = (
  random: Random,
  features: FeaturePlan,
  { changing, colour, attempt }: { changing: readonly MinorFeature[]; colour: string; attempt: number },
): DemoFeatures => {
  const stray = <T>(values: readonly T[], likely: number): T =>
    random.weighted(
      values,
      values.map((_, i) => (i === 0 ? likely : (1 - likely) / (values.length - 1))),
    );
  const of = (feature: MinorFeature): string => {
    const values = features[plural[feature]] as string[];
    return changing.includes(feature) && values.length > 1
      ? stray(values, attempt > 3 ? 0.4 : 0.62)
      : values[0]!;
  };
  const { bodyFinish } = colourNamed(colour);
  const basePaint =
    bodyFinish === 'candy lacquer' && features.basePaints.length > 1
      ? stray(features.basePaints, 0.45)
      : 'none';
  return {
    colour,
    bodyFinish,
    basePaint,
    rearEnd: features.rearEnds.length > 1 ? stray(features.rearEnds, 0.5) : features.rearEnds[0]!,
    roof: of('roof'),
    interior: of('interior'),
    glazing: of('glazing'),
    wheels: of('wheels'),
    accessory: of('accessory'),
    country: of('country'),
  };
};

/** Later colours and the fuller base paints were made in smaller numbers. */
const rarityOf = (random: Random, one: DemoFeatures, place: number, of: number): Rarity => {
  const score =
    random.normal(0, 0.8) +
    (place / of) * 1.3 +
    (one.basePaint === 'full' ? 0.7 : one.basePaint === 'none' ? 0 : 0.25) +
    (one.bodyFinish === 'bright plate' ? 1 : 0) +
    (one.colour === 'Fernhouse' || one.colour === 'Harebell' ? 0.5 : 0);
  if (score > 2.5) return 'rare';
  if (score > 1.75) return 'scarce';
  if (score > 0.9) return 'uncommon';
  return 'common';
};

const roofText: Record<string, string> = {
  matching: 'roof finished with the body',
  open: 'open body',
  'textured black': 'black textured roof over the lacquer',
  'folded top': 'black folded top',
  'blown dome': 'blown dome in one piece with the glazing',
  ribbed: 'ribbed roof, finished with the body',
};
const baseText: Record<BasePaint, string> = {
  none: 'base left bare',
  'front quarter': 'base tinted over its front quarter',
  'rear quarter': 'base tinted over its rear quarter',
  full: 'base tinted in full',
};
const finishText: Record<string, string> = {
  'candy lacquer': 'candy lacquer over bare zinc, one wet coat',
  enamel: 'opaque enamel straight on the metal',
  'bright plate': 'vacuum plate under clear lacquer',
};

/** The factory specification of a variation, as a restorer needs it. */
const specify = (plan: CastingPlan, one: DemoFeatures, year: number): string => {
  const roof = roofText[one.roof] ?? `${one.roof} roof`;
  const sentences = [
    `${one.colour}: ${finishText[one.bodyFinish]}; ${roof}; ${baseText[one.basePaint]}.`,
    one.rearEnd === '' ? 'Plain tail.' : `Tail insert: ${one.rearEnd}, held by the base.`,
    `Interior ${one.interior}, ${plan.body === 'open rod' ? 'no glazing' : `${one.glazing} glazing`}.`,
    `Wheels: ${one.wheels}, bright.`,
  ];
  if (one.accessory !== '') sentences.push(`Fitted with ${one.accessory}.`);
  sentences.push(`Base lettered ${year >= 1974 ? 'in the plastic' : 'in relief'}, ${one.country}.`);
  return sentences.join(' ');
};
