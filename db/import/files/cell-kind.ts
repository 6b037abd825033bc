import { readDate } from '../../../valuation/reading/date.ts';
import { type Cell, isAmountCell } from '../../../valuation/reading/reading.ts';
import { colourWords } from '../../../valuation/reading/sale-line/vocabulary.ts';
import { plainWord, readBasePaint, readFinishState } from '../../../valuation/reading/words.ts';
import { cellText } from './cell-text.ts';

/** What a cell looks like by itself, whatever stands over it. */
export type CellKind =
  | 'blank'
  | 'whole'
  | 'year'
  | 'number'
  | 'grade'
  | 'amount'
  | 'date'
  | 'colour'
  | 'finish'
  | 'base paint'
  | 'code'
  | 'mixed'
  | 'word';

const isYear = (number: number): boolean => number >= 1940 && number <= 2040;

const numeric = (text: string): CellKind | null => {
  if (/^\d+$/.test(text)) return text.length === 4 && isYear(Number(text)) ? 'year' : 'whole';
  if (/^['’]\d\d$/.test(text)) return 'year';
  if (/^\d{1,2}[.,]5$/.test(text)) return 'number';
  if (/^c ?\.?\d{1,2}(?:[.,]\d)?[+-]?$/i.test(text) || /^\d{1,2}(?:[.,]\d)? ?\/ ?(?:5|10)$/.test(text))
    return 'grade';
  if (/^[★☆*]{1,10}½?$/u.test(text) || /^\d{1,3} ?%$/.test(text)) return 'grade';
  const figures = text.replace(/[\p{Sc}\s]|usd|eur|gbp|each/giu, '');
  if (/^\d[\d.,']*$/.test(figures) && (figures.length < text.length || /[.,]\d\d$/.test(figures)))
    return 'amount';
  if (/^\d+[.,]\d+$/.test(text)) return 'number';
  return readDate(text, 'dmy', '2099-12-31').ok || readDate(text, 'mdy', '2099-12-31').ok ? 'date' : null;
};

/**
 * True for a text in which several things are said, as of a whole car; "Vans, Brackenhall" is a name the
 * other way round.
 */
const isMixed = (text: string): boolean => {
  const words = text.split(/\s+/).length;
  const isListed = /[,;]/.test(text) && text.length > 12 && (words > 2 || /\d/.test(text));
  return words >= 4 || isListed || text.length > 40;
};

const ofText = (text: string, colours: ReadonlySet<string>): CellKind => {
  const figures = /\d|★/u.test(text) ? numeric(text) : null;
  if (figures) return figures;
  const word = plainWord(text);
  if (colours.has(word)) return 'colour';
  if (isMixed(text)) return 'mixed';
  const last = word.split(' ').at(-1) ?? '';
  if (colourWords.has(last) && word.split(' ').length <= 2) return 'colour';
  if (readFinishState(text).ok) return 'finish';
  if (!/^(?:no|none|all|complete|full|whole)$/.test(word) && readBasePaint(text).ok) return 'base paint';
  return /\d/.test(text) && !/\s/.test(text) ? 'code' : 'word';
};

export const noColours: ReadonlySet<string> = new Set();

/**
 * What a cell looks like; its words are those of several languages. `colours` are the plain words of colours
 * that the reference names, which no common word tells.
 */
export const kindOfCell = (cell: Cell, colours: ReadonlySet<string> = noColours): CellKind => {
  if (cell === null) return 'blank';
  if (cell instanceof Date) return 'date';
  if (isAmountCell(cell)) return 'amount';
  if (typeof cell === 'number') return Number.isInteger(cell) ? (isYear(cell) ? 'year' : 'whole') : 'number';
  const text = cellText(cell);
  return text === '' ? 'blank' : ofText(text, colours);
};
