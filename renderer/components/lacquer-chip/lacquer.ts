import { type BasePaint, basePaints } from '../../../valuation/words.ts';

const channels = (hex: string): [number, number, number] => {
  const value = Number.parseInt(hex.slice(1), 16);
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255];
};

/** True for `#rrggbb`. */
export const isHex = (text: string | null | undefined): text is string =>
  typeof text === 'string' && /^#[0-9a-f]{6}$/i.test(text);

/** Mixes a colour towards white (share above zero) or black (below zero); −1…1. */
export const shade = (hex: string, share: number): string => {
  const target = share >= 0 ? 255 : 0;
  const mix = (channel: number) => Math.round(channel + (target - channel) * Math.abs(share));
  const [red, green, blue] = channels(hex);
  return `#${[mix(red), mix(green), mix(blue)].map(part => part.toString(16).padStart(2, '0')).join('')}`;
};

/**
 * The stops of a candy lacquer's gloss, from roof to sill: a lit edge, the colour itself, a deep lower flank.
 */
export const gloss = (hex: string): { at: number; colour: string }[] => [
  { at: 0, colour: shade(hex, 0.42) },
  { at: 0.34, colour: shade(hex, 0.1) },
  { at: 0.52, colour: hex },
  { at: 1, colour: shade(hex, -0.26) },
];

export interface Strip {
  from: number;
  to: number;
}

/**
 * The stretch of a base that carries paint, as shares of the chip's length, front at the left; null when it
 * is bare. A quarter is drawn a little longer than it is, so that it can be told at 22 pixels.
 */
export const paintedBase = (basePaint: BasePaint | '' | null | undefined): Strip | null => {
  switch (basePaint) {
    case 'front quarter':
      return { from: 0, to: 0.32 };
    case 'rear quarter':
      return { from: 0.68, to: 1 };
    case 'full':
      return { from: 0, to: 1 };
    default:
      return null;
  }
};

/**
 * True when a base is drawn at all: unknown base paint shows none, and no more does a text of the owner's that
 * was not understood, which a car without a variation may have.
 */
export const showsBase = (basePaint: string | null | undefined): basePaint is BasePaint =>
  basePaints.some(word => word === basePaint);
