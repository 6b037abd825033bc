import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import type { AssumptionSet } from '../../../valuation/types.ts';
import type { MarketWish } from './market-simulator.ts';

/** A world that breaks one of the engine's assumptions. */
export interface World {
  name: string;
  wish: Omit<MarketWish, 'seed'>;
  ungraded?: { share: number; worse: number };
  changed?: Partial<AssumptionSet>;
}
const assumed = defaultAssumptions('USD');

export const worlds: readonly World[] = [
  { name: 'still', wish: { drift: 0 } },
  { name: 'quiet', wish: { drift: 0, noise: 0.15 } },
  { name: 'loud', wish: { drift: 0, noise: 0.6 } },
  { name: 'heavy tails', wish: { drift: 0, heavyTails: true } },
  { name: 'drift 10 %', wish: { drift: 0.1 } },
  { name: 'bubble', wish: { drift: 0, bubble: 0.7 } },
  { name: 'thin', wish: { drift: 0, density: 0.35 } },
  { name: 'wrong labels', wish: { drift: 0, mislabelled: 0.15 } },
  {
    name: 'biased sources',
    wish: {
      drift: 0,
      sources: [
        { source: 'listing', share: 0.35, bias: 0.25 },
        { source: 'fair', share: 0.2, bias: -0.1 },
      ],
    },
  },
  { name: 'one grade only', wish: { drift: 0, onlyGrade: 7 } },
  { name: 'noise by grade', wish: { drift: 0, noiseByGrade: 3 } },
  { name: 'no restored record', wish: { drift: 0, noRestored: true } },
  { name: 'unknown rarity', wish: { drift: 0, unknownRarity: 0.5 } },
  {
    name: 'ungraded are worse',
    wish: { drift: 0, ungradedShare: 0.25, ungradedWorse: 1.5 },
    ungraded: { share: 0.4, worse: 1.5 },
  },
  { name: 'as assumed', wish: { drift: 0, asAssumed: assumed } },
  { name: 'as assumed, thin', wish: { drift: 0, density: 0.35, asAssumed: assumed } },
  { name: 'as assumed, one grade only', wish: { drift: 0, onlyGrade: 7, asAssumed: assumed } },
  { name: 'as assumed, bubble', wish: { drift: 0, bubble: 0.7, asAssumed: assumed } },
  { name: 'as assumed, wrong labels', wish: { drift: 0, mislabelled: 0.15, asAssumed: assumed } },
  { name: 'as assumed, no restored record', wish: { drift: 0, noRestored: true, asAssumed: assumed } },
];
