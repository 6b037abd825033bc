import { fold } from './sale-line/text.ts';
import { colourWords } from './sale-line/vocabulary.ts';

/** What colours and their shades are shortened to. Common practice, no source. */
const shortened: Record<string, string> = {
  lt: 'light',
  lgt: 'light',
  lite: 'light',
  dk: 'dark',
  drk: 'dark',
  med: 'medium',
  met: 'metallic',
  grn: 'green',
  blu: 'blue',
  yel: 'yellow',
  yell: 'yellow',
  ylw: 'yellow',
  wht: 'white',
  blk: 'black',
  brn: 'brown',
  pur: 'purple',
  purp: 'purple',
  org: 'orange',
  gry: 'grey',
  slv: 'silver',
  silv: 'silver',
  gld: 'gold',
  trq: 'turquoise',
  turq: 'turquoise',
  mag: 'magenta',
};

/** What single colours are shortened to, shades apart. */
export const shortColours: readonly string[] = Object.entries(shortened).flatMap(([short, word]) =>
  colourWords.has(word) ? [short] : [],
);

const shades = new Set(
  'light dark medium pale bright deep metallic candy hell dunkel clair claire fonce foncee mittel'.split(' '),
);

const tokens = (text: string): string[] => fold(text).match(/[\p{L}]+/gu) ?? [];

const isColour = (word: string): boolean =>
  colourWords.has(word) || colourWords.has(word.replace(/^(hell|dunkel|mittel)/, ''));

/** True of a colour in plain words, such as "dark blue" or "vert clair", and of nothing else. */
export const isPlainColour = (text: string): boolean => {
  const words = tokens(text);
  return (
    /^[\p{L}\s'-]+$/u.test(text) &&
    words.length <= 3 &&
    words.some(isColour) &&
    words.every(word => isColour(word) || shades.has(word))
  );
};

/** A shortened colour in full ("lt grn" is "light green"), or null where it is none. */
export const plainColourText = (text: string): string | null => {
  const whole = tokens(text)
    .map(word => shortened[word] ?? word)
    .join(' ');
  return isPlainColour(whole) ? whole : null;
};
/** True where a word of the text is short for a colour or a shade, so that it is no name. */
export const isShortened = (text: string): boolean =>
  tokens(text).some(word => Object.hasOwn(shortened, word)) ||
  /\p{L}\.(\s|$)|^\p{L}{1,2}$/u.test(text.trim());
