import type { CarSpec } from '../spec.ts';
import { mix } from './colour-mixing.ts';

/** Bare casting metal. */
export const zinc = '#b7b9b8';

/** The tins that customisers painted from: enamel, in no colour of the maker's. */
export const customTins = [
  { name: 'Night violet', swatch: '#3a1f6e' },
  { name: 'Soot black', swatch: '#17181a' },
  { name: 'Sharp yellow', swatch: '#c3cf2e' },
  { name: 'Signal orange', swatch: '#e0620f' },
  { name: 'Deep teal', swatch: '#0d6a74' },
  { name: 'Cherry red', swatch: '#b3123a' },
] as const;

/** The tin that a car was customised from, by its seed. */
export const customTin = (seed: string) => {
  const sum = [...seed].reduce((total, letter) => total + letter.charCodeAt(0), 0);
  return customTins[sum % customTins.length]!;
};

/** The colour that the body shows now, whatever it left the works in. */
export const bodyColour = (spec: CarSpec): string => {
  if (spec.finishState === 'stripped') return zinc;
  if (spec.finishState !== 'customised') return spec.colour;
  return customTin(spec.seed).swatch;
};

/** Body lacquer on the rough metal of the base. */
export const baseTint = (spec: CarSpec): string => mix(spec.colour, zinc, 0.18);

/** Colour of a roof that is not in body colour; null where it is. */
export const roofColour = (roof: string): string | null => {
  if (roof === 'black' || roof === 'textured black' || roof === 'folded top') return '#222326';
  if (roof === 'white') return '#e6e1d4';
  return null;
};

/** Colours of the interiors by the name that the reference gives them. */
export const interiorColours: Record<string, string> = {
  ivory: '#e4d9bd',
  black: '#2b2c2f',
  oxblood: '#6d1f22',
  tan: '#b07f4c',
};

/** Tint of the glazing and how much of what is behind it is hidden. */
export const glazingTints: Record<string, { colour: string; depth: number }> = {
  clear: { colour: '#dfe6e6', depth: 0.12 },
  'pale blue': { colour: '#79b0d6', depth: 0.42 },
  amber: { colour: '#d98a1e', depth: 0.52 },
  smoke: { colour: '#232224', depth: 0.66 },
  green: { colour: '#4b9a68', depth: 0.46 },
};
