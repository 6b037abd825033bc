import {
  type BasePaint,
  basePaints,
  type FinishState,
  finishStates,
  type Grade,
  gradeLabel,
  isGrade,
  type PartName,
  partNames,
  type Rarity,
  rarities,
} from '../../../valuation/words.ts';
import type { Cell } from '../types.ts';
import { type Parsed, parsed, refused } from './parse-date.ts';

/** Lower case, one space between words, no accents, hyphens as spaces: what two spellings of a word share. */
export const plainWord = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[\s\-_]+/g, ' ')
    .trim();

/** A grade as people write it: `C7.5`, `7`, `7/10`, `7,5`, `C 7½`, `7 1/2`. Refuses words, ranges and quarter points. */
export const parseGrade = (cell: Cell): Parsed<Grade> => {
  if (cell instanceof Date)
    return refused(
      'the spreadsheet has turned this grade into a date; format the column as text and type it again',
    );
  const shown = String(cell ?? '').trim();
  const text = shown
    .replace(/ ?½| 1\/2/g, '.5')
    .replace(/\s+/g, '')
    .replace(',', '.');
  const match = /^[cC]?\.?(\d{1,2}(?:\.\d+)?)(?:\/10)?$/.exec(text);
  const value = Number(match?.[1]);
  if (!match) return refused(`"${shown}" is not a grade from C1 to C10 such as ${gradeLabel(7.5)}`);
  if (value >= 1 && value <= 10 && !isGrade(value))
    return refused(`"${shown}": grades go in half points, such as ${gradeLabel(7.5)}`);
  if (!isGrade(value)) return refused(`"${shown}" lies outside C1 to C10`);
  return parsed(value);
};

const finishWords: Record<string, FinishState> = {
  'factory finish': 'original',
  factory: 'original',
  'original paint': 'original',
  'original finish': 'original',
  unrestored: 'original',
  orig: 'original',
  touchup: 'touched up',
  'touch up': 'touched up',
  retouched: 'touched up',
  touched: 'touched up',
  repaint: 'restored',
  repainted: 'restored',
  restoration: 'restored',
  refinished: 'restored',
  custom: 'customised',
  customized: 'customised',
  customised: 'customised',
  bare: 'stripped',
  'bare metal': 'stripped',
  strip: 'stripped',
};
const baseWords: Record<string, BasePaint> = {
  no: 'none',
  unpainted: 'none',
  bare: 'none',
  'front 1/4': 'front quarter',
  front: 'front quarter',
  'rear 1/4': 'rear quarter',
  rear: 'rear quarter',
  complete: 'full',
  all: 'full',
  whole: 'full',
  painted: 'full',
};
const rarityWords: Record<string, Rarity> = {
  normal: 'common',
  'very rare': 'rare',
  'hard to find': 'scarce',
};
const partWords: Record<string, PartName> = {
  body: 'body finish',
  paint: 'body finish',
  finish: 'body finish',
  glass: 'glazing',
  windows: 'glazing',
  window: 'glazing',
  windshield: 'glazing',
  windscreen: 'glazing',
  wheel: 'wheels',
  tyres: 'wheels',
  tires: 'wheels',
  axle: 'axles',
  seats: 'interior',
  accessories: 'accessory',
  label: 'labels',
  decals: 'labels',
  stickers: 'labels',
  posts: 'post and rivet closure',
  rivets: 'post and rivet closure',
  rivet: 'post and rivet closure',
  post: 'post and rivet closure',
};

const chosen = <T extends string>(
  cell: Cell,
  words: readonly T[],
  others: Record<string, T>,
  what: string,
): Parsed<T> => {
  const shown = String(cell ?? '').trim();
  const word = plainWord(shown);
  // A cell that says "constructor" must not find what every object has.
  const found = words.find(w => w === word) ?? (Object.hasOwn(others, word) ? others[word] : undefined);
  return found ? parsed(found) : refused(`"${shown}" is no ${what}; write one of: ${words.join(', ')}`);
};

/**
 * A finish state, in our words or common others such as "repainted"; anything else is refused, naming the choices.
 */
export const parseFinishState = (cell: Cell): Parsed<FinishState> =>
  chosen(cell, finishStates, finishWords, 'finish state');

/** How much of the base is painted, in our words or common others; anything else is refused, naming the choices. */
export const parseBasePaint = (cell: Cell): Parsed<BasePaint> =>
  chosen(cell, basePaints, baseWords, 'base paint');

/** A rarity, in our words or common others; anything else is refused, naming the choices. */
export const parseRarity = (cell: Cell): Parsed<Rarity> => chosen(cell, rarities, rarityWords, 'rarity');

/** Part names separated by commas, semicolons, slashes, plus signs or "and". */
export const parseParts = (cell: Cell): Parsed<PartName[]> => {
  const whole = plainWord(String(cell ?? ''));
  if (/^(|none|no|nil|n\/a|)$/.test(whole)) return parsed([]);
  const found = new Set<PartName>();
  const words = whole.replaceAll('post and rivet closure', 'posts').split(/[,;/+&|]| and /);
  for (const word of words) {
    if (!word.trim()) continue;
    const part = chosen(word, partNames, partWords, 'part');
    if (!part.ok) return part;
    found.add(part.value);
  }
  return parsed(partNames.filter(part => found.has(part)));
};

/** A four-digit year, or two digits of the last century. */
export const parseYear = (cell: Cell): Parsed<number> => {
  if (cell instanceof Date) return parsed(cell.getUTCFullYear());
  const shown = String(cell ?? '').trim();
  const match = /^(?:(\d{4})|['’](\d{2}))(?:\.0+)?$/.exec(shown);
  const year = match?.[1] ? Number(match[1]) : 1900 + Number(match?.[2]);
  return match && year >= 1900 && year <= 2100
    ? parsed(year)
    : refused(`"${shown}" is not a year such as 1969`);
};
