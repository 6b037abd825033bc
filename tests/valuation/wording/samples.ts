import type {
  AdjustmentCause,
  AsideCause,
  Evidence,
  Guard,
  Help,
  Reason,
  Turning,
} from '../../../valuation/types.ts';
import type { NextStep } from '../../../valuation/wording/next-step-text.ts';
import type { Reader } from '../../../valuation/wording/reader.ts';
import type { Verdict } from '../../../valuation/worth/diagnostics.ts';

/** Readers of two languages and of currencies with two decimals and none. */
export const readers: Reader[] = [
  { locale: 'en-US', currency: 'USD' },
  { locale: 'en-US', currency: 'JPY' },
  { locale: 'en-GB', currency: 'USD' },
  { locale: 'de-DE', currency: 'USD' },
  { locale: 'de-DE', currency: 'JPY' },
];

export const evidence: Evidence = {
  sales: 4,
  castingSales: 31,
  seriesSales: 90,
  credibility: 0.62,
  shares: { variation: 0.62, casting: 0.35, series: 0.03, everything: 0 },
  doubtful: [7],
};

/** One or more of each kind; the type makes a kind that is forgotten an error. */
export const guards = {
  'keep-grade': { kind: 'keep-grade', finish: 8.5, keepGrade: 7, overruled: false, reason: '' },
  rarity: {
    kind: 'rarity',
    rarities: ['scarce', 'rare'],
    identified: false,
    overruled: true,
    reason: 'Mine.',
  },
} satisfies { [Kind in Guard['kind']]: Extract<Guard, { kind: Kind }> };

export const helps: Record<Help, true> = {
  identify: true,
  'sale-records': true,
  'choose-variation': true,
  grade: true,
  'own-figure': true,
};

const cost = { low: 500, mid: 700, high: 900 };

export const reasons: { [Kind in Reason['kind']]: Extract<Reason, { kind: Kind }> } = {
  'not-enough-evidence': { kind: 'not-enough-evidence' },
  help: { kind: 'help', help: 'grade' },
  gain: { kind: 'gain', option: 'restore', expectedGain: 220_400, cost, afterFees: true, probability: 0.9 },
  guard: { kind: 'guard', guard: guards['keep-grade'] },
  'nothing-pays': { kind: 'nothing-pays' },
  'under-least-gain': { kind: 'under-least-gain', leastGain: 1_000_000 },
  'under-least-probability': { kind: 'under-least-probability', leastProbability: 0.6 },
  'break-even': { kind: 'break-even', option: 'restore', recommended: true, worth: 6061, cost: 2073 },
  'standard-plan': { kind: 'standard-plan' },
  'plan-from-car': { kind: 'plan-from-car' },
  deviations: { kind: 'deviations', deviations: ['another colour', 'textured roof'] },
  evidence: { kind: 'evidence', evidence },
  'own-figure': { kind: 'own-figure' },
  'no-sale-of-state': { kind: 'no-sale-of-state', state: 'restored' },
};

export const turnings: { [Kind in Turning['kind']]: Extract<Turning, { kind: Kind }> } = {
  help: { kind: 'help', help: null },
  guards: { kind: 'guards', guards: [guards['keep-grade'], guards.rarity] },
  'next-best': { kind: 'next-best', option: 'customise', expectedGain: -1234 },
  'no-other': { kind: 'no-other' },
  'nothing-possible': { kind: 'nothing-possible' },
  'nothing-pays': { kind: 'nothing-pays', nearest: 'conserve', expectedGain: -50 },
  'under-least-gain': { kind: 'under-least-gain', option: 'donor', expectedGain: 100, leastGain: 500_000 },
  'under-least-probability': {
    kind: 'under-least-probability',
    option: 'restore',
    expectedGain: 900,
    probability: 0.41,
    leastProbability: 0.6,
  },
};

export const causes: { [Kind in AdjustmentCause['kind']]: Extract<AdjustmentCause, { kind: Kind }> } = {
  'exchange-rate': { kind: 'exchange-rate', from: 'EUR', to: 'USD', on: '2024-02-03' },
  index: { kind: 'index', series: 'cpi-u', from: 1970, to: 2024 },
  trend: { kind: 'trend', years: 3.46 },
  steps: { kind: 'steps', years: 3.46 },
  source: { kind: 'source', source: 'listing' },
  rarity: { kind: 'rarity' },
  grade: { kind: 'grade', from: 6, ungraded: true, to: 4.5, finishState: 'original' },
  'finish-state': { kind: 'finish-state', from: 'restored', to: 'original', grade: 7 },
  'made-complete': { kind: 'made-complete', missing: ['wheels'], reproductions: ['roof'] },
  'own-parts': { kind: 'own-parts' },
  departures: { kind: 'departures' },
  workmanship: { kind: 'workmanship', aim: 9 },
};

export const asides: AsideCause[] = [
  { kind: 'unknown-casting' },
  { kind: 'unknown-variation' },
  { kind: 'other-casting' },
  { kind: 'no-price' },
  { kind: 'no-reliability' },
  { kind: 'after-effective-date', soldOn: '2026-12-01' },
  { kind: 'no-rate', currency: 'GBP', on: '2023-05-06' },
];

export const verdicts: Verdict[] = [
  { kind: 'none-sold' },
  { kind: 'too-few', count: 1 },
  { kind: 'too-few', count: 4 },
  { kind: 'nothing-against', count: 30, bias: -0.02, coverage: 0.8 },
  {
    kind: 'wrong',
    count: 40,
    faults: [
      { kind: 'bias', bias: 0.25 },
      { kind: 'ranges-too-narrow', coverage: 0.5 },
    ],
  },
  { kind: 'wrong', count: 40, faults: [{ kind: 'ranges-too-wide', coverage: 0.99 }] },
];

export const nextSteps: Record<NextStep['kind'], true> = {
  'add-reference': true,
  'add-lot': true,
  'add-sale-records': true,
  decide: true,
  identify: true,
  'choose-variation': true,
  grade: true,
  'find-evidence': true,
  photograph: true,
};
