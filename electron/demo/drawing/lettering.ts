import { px } from './geometry.ts';

/**
 * Letters as a die-sinker cuts them: strokes on a grid 4 wide and 6 high, y down. Points of a stroke are
 * pairs of digits.
 */
const glyphs: Record<string, string> = {
  A: '06 20 46/14 34',
  B: '00 06 36 45 34 03/00 30 41 32 03',
  C: '41 30 10 01 05 16 36 45',
  D: '00 06 26 44 42 20 00',
  E: '40 00 06 46/03 33',
  F: '40 00 06/03 33',
  G: '41 30 10 01 05 16 36 45 43 23',
  H: '00 06/40 46/03 43',
  I: '20 26',
  J: '40 45 36 16 05',
  K: '00 06/40 03 46',
  L: '00 06 46',
  M: '06 00 23 40 46',
  N: '06 00 46 40',
  O: '10 30 41 45 36 16 05 01 10',
  P: '06 00 30 41 42 33 03',
  Q: '10 30 41 45 36 16 05 01 10/24 46',
  R: '06 00 30 41 42 33 03/23 46',
  S: '41 30 10 01 02 13 33 44 45 36 16 05',
  T: '00 40/20 26',
  U: '00 05 16 36 45 40',
  V: '00 26 40',
  W: '00 16 23 36 40',
  X: '00 46/40 06',
  Y: '00 23 40/23 26',
  Z: '00 40 06 46',
  '0': '10 30 41 45 36 16 05 01 10',
  '1': '11 20 26/16 36',
  '2': '01 10 30 41 42 06 46',
  '3': '00 40 22 33 44 45 36 16 05',
  '4': '36 30 04 44',
  '5': '40 00 02 32 43 45 36 06',
  '6': '40 10 01 05 16 36 45 44 33 03',
  '7': '00 40 16',
  '8': '10 30 41 42 33 13 02 01 10/13 33 44 45 36 16 05 04 13',
  '9': '05 16 36 45 41 30 10 01 02 13 43',
  "'": '20 21',
  '.': '26 26',
  '-': '13 33',
};

const advance = 5.6;

/** Width of a line of letters `size` pixels high. */
export const letteringWidth = (text: string, size: number): number =>
  (text.length * advance - (advance - 4)) * (size / 6);

/** Path data of a line of letters, centred on x, its top at y. */
export const lettering = (text: string, x: number, y: number, size: number): string => {
  const unit = size / 6;
  let left = x - letteringWidth(text, size) / 2;
  let d = '';
  for (const letter of text.toUpperCase()) {
    for (const stroke of (glyphs[letter] ?? '').split('/')) {
      if (stroke === '') continue;
      d += stroke
        .split(' ')
        .map((point, i) => {
          const [gx, gy] = [Number(point[0]), Number(point[1])];
          return `${i === 0 ? 'M' : 'L'}${px(left + gx * unit)} ${px(y + gy * unit)}`;
        })
        .join('');
    }
    left += advance * unit;
  }
  return d;
};
