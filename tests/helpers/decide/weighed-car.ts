import type { CarRow, DecisionSummary, SeasonOffer } from '../../../electron/api/views.ts';
import type { OptionSummary } from '../../../valuation/index.ts';
import { variationFeatures } from '../../../valuation/words.ts';

/** A car as lists show it; what is not given is plain. */
export const carRow = (id: number, changes: Partial<CarRow> = {}): CarRow => ({
  id,
  inventoryNumber: `Q-${id}`,
  lotId: null,
  lot: null,
  castingId: 1,
  casting: 'Dovetail',
  releaseName: 'Dovetail',
  releaseYear: 1968,
  series: 'Slipwinds',
  variationId: 1,
  features: Object.fromEntries(variationFeatures.map(feature => [feature, ''])) as CarRow['features'],
  swatch: null,
  variation: null,
  rarity: null,
  asWritten: {},
  identified: 'variation',
  candidateCount: 0,
  grade: 5,
  finishState: 'original',
  status: 'kept',
  location: '',
  isSeen: false,
  boughtOn: null,
  seller: '',
  notes: '',
  unread: [],
  wornColour: '',
  wornFinish: '',
  restorerMark: '',
  said: [],
  cost: null,
  costFixed: false,
  costCurrency: null,
  photo: null,
  photoCount: 0,
  worths: { asFound: null, restored: null, originalFinish: null, cost: null },
  recommendation: 'restore',
  probability: 0.8,
  expectedGain: 1000,
  decided: null,
  ...changes,
});

/** A car with its decision in short; what is not given is plain. */
export const weighed = (
  id: number,
  car: Partial<CarRow> = {},
  rest: Partial<Omit<DecisionSummary, 'car' | 'plan'>> & {
    plan?: Partial<OptionSummary> | null;
    /** What its plan takes, where its offers are not given. */
    takes?: Partial<Pick<SeasonOffer, 'hours' | 'cash' | 'parts'>>;
  } = {},
): DecisionSummary => {
  const option: OptionSummary = {
    option: 'restore',
    expectedGain: 1000,
    probability: 0.8,
    guarded: false,
    passes: true,
    cost: { low: 100, mid: 200, high: 300 },
    hours: 4,
    cash: 200,
    gainPerHour: 250,
  };
  const { plan, takes, ...others } = rest;
  const planned = plan === null ? null : { ...option, ...plan };
  const offers: SeasonOffer[] = planned
    ? [
        {
          option: 'restore',
          gain: planned.expectedGain,
          hours: 2,
          cash: 200,
          parts: {},
          passes: planned.passes && planned.expectedGain > 0,
          guarded: planned.guarded,
          ...takes,
        },
      ]
    : [];
  return {
    car: carRow(id, car),
    shown: option,
    plan: planned && { option: planned.option, own: false, guards: [] },
    onBench: false,
    offers,
    turnsOn: { kind: 'no-other' },
    ...others,
  };
};
