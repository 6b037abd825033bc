import type { StripWorths } from '../../../renderer/components/worth-strip/strip-worths.ts';
import type { BasePaint, FinishState, Grade, Recommendation } from '../../../valuation/words.ts';
import { basePaints, finishStates, recommendations } from '../../../valuation/words.ts';

export interface SampleCar {
  id: string;
  number: string;
  casting: string;
  colour: string;
  swatch: string | null;
  basePaint: BasePaint | '';
  grade: Grade | null;
  finish: FinishState;
  paid: number;
  recommendation: Recommendation;
  probability: number;
  worths: StripWorths;
  notes: string;
}

export const colours: readonly [string, string | null][] = [
  ['Ember', '#c8401f'],
  ['Lagoon', '#1f7fa6'],
  ['Moss', '#5c7a2a'],
  ['Plum', '#6a2a6b'],
  ['Honey', '#d99a1c'],
  ['Frost', '#e9edf0'],
  ['Soot', '#23252a'],
  ['Rose', '#d0607f'],
  ['Verdigris', '#3c9c86'],
  ['Tin', null],
];

export const castings = [
  'Fennel Coupe',
  'Tollgate Van',
  'Brindle Six',
  'Ospring',
  'Pennant Wagon',
  'Dray',
  'Cutlet Roadster',
];

const noise = (seed: number) => {
  const x = Math.sin(seed * 12.9898) * 43758.5453;
  return x - Math.floor(x);
};

const pick = <T>(from: readonly T[], seed: number): T => from[Math.floor(noise(seed) * from.length)] as T;

const range = (mid: number, spread: number) => ({
  low: Math.round(mid / spread),
  mid: Math.round(mid),
  high: Math.round(mid * spread),
});

export const sampleWorths = (seed: number): StripWorths => {
  const found = 600 * 10 ** (noise(seed + 1) * 1.3);
  const gross = range(found * (1.4 + noise(seed + 2) * 2), 1.3 + noise(seed + 3) * 0.6);
  const cost = 1200 + noise(seed + 4) * 2500;
  return {
    asFound: noise(seed + 5) > 0.06 ? range(found, 1.25 + noise(seed + 6) * 0.7) : null,
    restored:
      noise(seed + 7) > 0.1
        ? { low: gross.low - cost, mid: gross.mid - cost, high: gross.high - cost, gross: gross.high }
        : null,
    originalFinish:
      noise(seed + 8) > 0.12
        ? { ...range(found * (2 + noise(seed + 9) * 3), 1.5), attainable: noise(seed) > 0.45 }
        : null,
  };
};

export const sampleCars = (count: number): SampleCar[] =>
  Array.from({ length: count }, (_, index) => {
    const [colour, swatch] = pick(colours, index + 0.1);
    return {
      id: String(index + 1),
      number: `Q-${String(index + 1).padStart(4, '0')}`,
      casting: pick(castings, index + 0.2),
      colour,
      swatch,
      basePaint: noise(index + 0.3) < 0.15 ? '' : pick(basePaints, index + 0.4),
      grade: noise(index + 0.5) < 0.1 ? null : 1 + Math.floor(noise(index + 0.6) * 18) / 2,
      finish: pick(finishStates, index + 0.7),
      paid: Math.round(noise(index + 0.8) * 9000),
      recommendation: pick(recommendations, index + 0.9),
      probability: noise(index + 0.95),
      worths:
        noise(index + 0.99) < 0.06
          ? { asFound: null, restored: null, originalFinish: null }
          : sampleWorths(index),
      notes: '',
    };
  });
