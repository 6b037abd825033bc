/** Numbers up to ten as they are said, in several languages, without accents. Common practice, no source. */
const said = [
  'one ein eins een un uno',
  'two zwei twee deux due dos',
  'three drei drie trois tre tres',
  'four vier quatre quattro cuatro',
  'five funf vijf cinq cinque cinco',
  'six sechs zes sei seis',
  'seven sieben zeven sept sette siete',
  'eight acht huit otto ocho',
  'nine neun negen neuf nove nueve',
  'ten zehn tien dix dieci diez',
];
const figures = new Map(
  said.flatMap((words, at) => words.split(' ').map(word => [word, String(at + 1)] as const)),
);
const roman = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii', 'viii', 'ix', 'x'];
const romans = new Map(roman.map((numeral, at) => [numeral, String(at + 1)] as const));

/** Alternatives of a pattern: numbers that are said, and Roman numerals, from one to ten. */
export const saidNumber = [...figures.keys(), ...romans.keys()]
  .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
  .join('|');

/**
 * "nine" and "VIII" as figures; any other text as it stands. A single letter is a Roman numeral only where
 * something beside it says that it is a number (`isNumber`).
 */
export const inFigures = (text: string, isNumber: boolean): string => {
  const plain = text
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase();
  const figure = figures.get(plain) ?? (plain.length > 1 || isNumber ? romans.get(plain) : undefined);
  return figure ?? text;
};
