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

/** Colours of other languages in English, as the reference's own texts mostly are. Common practice, no source. */
const english: Readonly<Record<string, string>> = Object.fromEntries(
  (
    [
      ['red', 'rot rouge rosso rojo rood rode'],
      ['blue', 'blau bleu bleue blu azul blauw blauwe'],
      ['green', 'grun vert verte verde groen groene'],
      ['yellow', 'gelb jaune giallo amarillo geel gele'],
      ['white', 'weiß weiss blanc blanche bianco blanco wit witte'],
      ['black', 'schwarz noir noire nero negro zwart zwarte'],
      ['grey', 'grau gris grise grigio grijs grijze gray'],
      ['brown', 'braun brun brune marrone bruin bruine'],
      ['silver', 'silber argent argento plateado zilver'],
      ['gold', 'dore dorado golden goud'],
      ['ivory', 'elfenbein ivoire avorio marfil ivoor'],
      ['clear', 'klar transparent clair chiaro claro helder'],
      ['orange', 'arancio arancione naranja oranje'],
    ] as const
  ).flatMap(([word, others]) => others.split(' ').map(other => [other, word] as const)),
);

/** Alternatives of a pattern: the words of other languages for an English colour; '' where none are known. */
export const inOtherLanguages = (word: string): string =>
  Object.keys(english)
    .filter(other => english[other] === word)
    .join('|');

/** A colour word of another language in English; any other text as it stands. The text is folded. */
export const inEnglish = (folded: string): string =>
  Object.hasOwn(english, folded) ? (english[folded] ?? folded) : folded;

/**
 * The one of a casting's colours that has a plain word in its name, where the whole reference has no other
 * colour with that word: with an "Ember Red" and a "Barn Red" in it, the list of a casting may lack one of
 * them, and "red" says neither. The word is folded, and so are the colours of the reference.
 */
export const onlyColourWith = (
  word: string,
  own: readonly string[],
  all: ReadonlySet<string>,
): string | undefined => {
  const plain = inEnglish(word);
  const has = (colour: string) => fold(colour).split(/[ -]/).includes(plain);
  const [only, another] = own.filter(has);
  const others = [...all].filter(has);
  return another === undefined && others.length <= 1 ? only : undefined;
};

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
