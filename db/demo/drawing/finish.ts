import { deepen, mix, shade } from './colour-mixing.ts';
import type { Stop } from './sheet.ts';
import type { CarSpec } from './spec.ts';

/** How a body takes the light: gradients from its upper edge to its sill, and how strongly it mirrors. */
export interface Finish {
  flank: Stop[];
  cabin: Stop[];
  /** Colour of edges that face up, and of those in shadow. */
  lit: string;
  dark: string;
  body: string;
  /** 0 dull … 1 fresh from the booth. */
  gloss: number;
  metallic: number;
}

export const zinc = '#b9bcbd';

/** Gloss that is left at a grade; a restored body is as glossy as its maker could make it. */
const glossOf = ({ grade, finishState }: CarSpec): number => {
  if (finishState === 'restored' || finishState === 'customised') return 1;
  return Math.max(0.22, Math.min(1, 0.16 + (grade / 10) ** 1.4 * 0.86));
};

const lacquer = (body: string, gloss: number): Omit<Finish, 'gloss'> => {
  const toned = mix(body, '#5b4a33', (1 - gloss) * 0.2);
  const lift = 0.1 + 0.1 * gloss;
  return {
    body: toned,
    lit: shade(toned, 0.16 + lift, 0.8),
    dark: deepen(toned, 0.42, 0.95),
    metallic: 0.5,
    flank: [
      { at: 0, colour: shade(toned, lift + 0.12, 0.85) },
      { at: 0.1, colour: shade(toned, lift, 1) },
      { at: 0.3, colour: shade(toned, 0.03, 1.08) },
      { at: 0.47, colour: deepen(toned, 0.82, 1.08) },
      { at: 0.56, colour: deepen(toned, 0.56, 1) },
      { at: 0.64, colour: deepen(toned, 0.66, 1.02) },
      { at: 0.82, colour: deepen(toned, 0.86, 1.05) },
      { at: 0.92, colour: deepen(toned, 0.72, 1) },
      { at: 1, colour: deepen(toned, 0.38, 0.9) },
    ],
    cabin: [
      { at: 0, colour: shade(toned, lift + 0.2, 0.7) },
      { at: 0.14, colour: shade(toned, lift + 0.02, 0.95) },
      { at: 0.55, colour: shade(toned, 0, 1.06) },
      { at: 1, colour: deepen(toned, 0.7, 1.02) },
    ],
  };
};

const enamel = (body: string, gloss: number): Omit<Finish, 'gloss'> => {
  const toned = mix(body, '#8a7a5c', (1 - gloss) * 0.25);
  return {
    body: toned,
    lit: shade(toned, 0.1, 0.8),
    dark: deepen(toned, 0.6, 1),
    metallic: 0,
    flank: [
      { at: 0, colour: shade(toned, 0.07, 0.8) },
      { at: 0.2, colour: shade(toned, 0.02, 1) },
      { at: 0.5, colour: deepen(toned, 0.92, 1) },
      { at: 0.62, colour: deepen(toned, 0.8, 1) },
      { at: 0.84, colour: deepen(toned, 0.88, 1) },
      { at: 1, colour: deepen(toned, 0.55, 1) },
    ],
    cabin: [
      { at: 0, colour: shade(toned, 0.1, 0.7) },
      { at: 0.3, colour: shade(toned, 0.03, 0.95) },
      { at: 1, colour: deepen(toned, 0.84, 1) },
    ],
  };
};

/** Bare metal: plated when bright, tumbled zinc when not. */
const metal = (bright: boolean): Omit<Finish, 'gloss'> => ({
  body: bright ? '#c6cbd0' : zinc,
  lit: bright ? '#ffffff' : '#e3e5e4',
  dark: bright ? '#3c4246' : '#6c7072',
  metallic: bright ? 0.1 : 0.35,
  flank: bright
    ? [
        { at: 0, colour: '#ffffff' },
        { at: 0.16, colour: '#dfe6ea' },
        { at: 0.4, colour: '#aab4ba' },
        { at: 0.52, colour: '#4b5257' },
        { at: 0.56, colour: '#343a3e' },
        { at: 0.63, colour: '#8f8b83' },
        { at: 0.8, colour: '#d8d3c8' },
        { at: 1, colour: '#55585a' },
      ]
    : [
        { at: 0, colour: '#dcdedd' },
        { at: 0.15, colour: '#c8cbcb' },
        { at: 0.45, colour: '#a9adae' },
        { at: 0.58, colour: '#85898b' },
        { at: 0.8, colour: '#a7a8a5' },
        { at: 1, colour: '#5d6062' },
      ],
  cabin: bright
    ? [
        { at: 0, colour: '#ffffff' },
        { at: 0.4, colour: '#ccd4d9' },
        { at: 1, colour: '#6d767b' },
      ]
    : [
        { at: 0, colour: '#e2e4e3' },
        { at: 0.35, colour: '#c1c4c4' },
        { at: 1, colour: '#8f9394' },
      ],
});

/** Colours of a customiser's tin, by the seed of the car. */
const customTins = ['#3a1f6e', '#1d1d1f', '#c7d432', '#e46a12', '#0f6f78'];

export const customColour = (spec: CarSpec): string =>
  customTins[[...spec.seed].reduce((sum, letter) => sum + letter.charCodeAt(0), 0) % customTins.length]!;

export const finishOf = (spec: CarSpec): Finish => {
  const gloss = glossOf(spec);
  if (spec.finishState === 'stripped') return { ...metal(false), gloss: 0.35 };
  if (spec.finishState === 'customised') return { ...enamel(customColour(spec), 1), gloss: 1 };
  if (spec.bodyFinish === 'bright plate') return { ...metal(true), gloss };
  if (spec.bodyFinish === 'enamel') return { ...enamel(spec.colour, gloss), gloss: gloss * 0.8 };
  return { ...lacquer(spec.colour, gloss), gloss };
};

/** Colour of a roof that is not in body colour; null where it is. */
export const roofColour = (roof: string): string | null => {
  if (roof === 'black' || roof === 'textured black' || roof === 'folded hood') return '#26272a';
  if (roof === 'white') return '#e9e5da';
  return null;
};

export const interiorColours: Record<string, string> = {
  ivory: '#e4d9bd',
  black: '#2b2c2f',
  oxblood: '#6d1f22',
  tan: '#b07f4c',
};

/** Tint of the glazing and how much of what is behind it is hidden. */
export const glazingTints: Record<string, { colour: string; depth: number }> = {
  clear: { colour: '#dfe6e6', depth: 0.16 },
  'pale blue': { colour: '#7fb4d6', depth: 0.4 },
  amber: { colour: '#d8912c', depth: 0.5 },
  smoke: { colour: '#2b2a2c', depth: 0.66 },
  green: { colour: '#4f9a6b', depth: 0.44 },
};
