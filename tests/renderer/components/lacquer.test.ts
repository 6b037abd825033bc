import { describe, expect, it } from 'vitest';
import {
  gloss,
  isHex,
  paintedBase,
  shade,
  showsBase,
} from '../../../renderer/components/lacquer-chip/lacquer.ts';

describe('the lacquer chip', () => {
  it('mixes towards white and black', () => {
    expect(shade('#804020', 0)).toBe('#804020');
    expect(shade('#804020', 1)).toBe('#ffffff');
    expect(shade('#804020', -1)).toBe('#000000');
    expect(shade('#000000', 0.5)).toBe('#808080');
    expect(shade('#0a0b0c', -0.5)).toBe('#050606');
  });

  it('lights the roof, deepens the sill and shows the colour itself between', () => {
    const stops = gloss('#1f7fa6');
    expect(stops.map(stop => stop.at)).toEqual([...stops.map(stop => stop.at)].sort((a, b) => a - b));
    expect(stops.some(stop => stop.colour === '#1f7fa6')).toBe(true);
    expect(stops[0]?.colour).toBe(shade('#1f7fa6', 0.42));
    expect(stops.at(-1)?.at).toBe(1);
  });

  it('joins the painted stretch to the side that is painted, front at the left', () => {
    const front = paintedBase('front quarter');
    const rear = paintedBase('rear quarter');
    expect(front?.from).toBe(0);
    expect(rear?.to).toBe(1);
    expect(front && rear && front.to < rear.from).toBe(true);
    expect(paintedBase('full')).toEqual({ from: 0, to: 1 });
    expect(paintedBase('none')).toBeNull();
  });

  it('draws a bare base for none, and no base where it is not known', () => {
    expect(showsBase('none')).toBe(true);
    expect(showsBase('')).toBe(false);
    expect(showsBase(null)).toBe(false);
    // A car without a variation has what was written of it, understood or not.
    expect(showsBase('plain')).toBe(false);
    expect(paintedBase('')).toBeNull();
  });

  it('takes six-digit colours only', () => {
    expect(isHex('#1f7fa6')).toBe(true);
    for (const wrong of ['#1f7', 'red', '#1f7fa6ff', 'url(#x)', '', null, undefined])
      expect(isHex(wrong)).toBe(false);
  });
});
