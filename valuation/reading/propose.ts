import { basePaints, finishStates, partNames } from '../words.ts';
import { nearest } from './nearest.ts';
import { inFigures } from './number-words.ts';
import { plainColourText } from './plain-colour.ts';
import { plainWord } from './words.ts';

/**
 * What a text that is not understood most likely means; its owner is asked, and nothing is taken before that.
 */
export interface Proposal {
  field: string;
  /** '' where people mean it differently: it is asked without a suggestion. */
  meaning: string;
}

/** Words for condition that most people mean alike. Common practice, no source. */
const gradeWords: Record<string, string> = {
  mint: 'C9.5',
  'near mint': 'C9',
  'nr mint': 'C9',
  nm: 'C9',
  neuwertig: 'C9.5',
  neuf: 'C9.5',
  beater: 'C2',
  junk: 'C1',
  wreck: 'C1',
  schrott: 'C1',
  epave: 'C1',
};

const half = (value: number): string => `C${Math.round(value * 2) / 2}`;

const gradeOf = (text: string): string => {
  const plain = text.trim().toLowerCase().replace(',', '.');
  const range = /^c?(\d{1,2}(?:\.\d)?) ?(?:-|–|to|\/|bis) ?c?(\d{1,2}(?:\.\d)?)$/.exec(plain);
  if (range) {
    const [low, high] = [Number(range[1]), Number(range[2])];
    return low >= 1 && high <= 10 && high > low && high - low <= 1 ? half((low + high) / 2) : '';
  }
  const sign = /^c?(\d{1,2})([+-])$/.exec(plain);
  if (sign) {
    const value = Number(sign[1]) + (sign[2] === '+' ? 0.5 : -0.5);
    return value >= 1 && value <= 10 ? half(value) : '';
  }
  const word = plainWord(text);
  const figure = inFigures(word, false);
  return gradeWords[word] ?? (figure === word ? '' : figure);
};

/** The scale that a text of condition shows by itself. */
const scaleOf = (text: string): string | null => {
  if (/^[★☆⭐½]+$/u.test(text.trim().replaceAll('\ufe0f', ''))) return '5 stars';
  if (/^\d{1,3}([.,]\d)? ?%$/.test(text.trim())) return '100 %';
  const outOf = /\/ ?(5|6|20|100)$/.exec(text.trim());
  return outOf ? `of ${outOf[1]}` : null;
};

const baseWords: Record<string, string> = {
  plain: 'none',
  bare: 'none',
  metal: 'none',
  blank: 'none',
  brut: 'none',
  brute: 'none',
  front: 'front quarter',
  frt: 'front quarter',
  vorne: 'front quarter',
  rear: 'rear quarter',
  back: 'rear quarter',
  hinten: 'rear quarter',
};

const shortForms: [RegExp, string][] = [
  [/\bwhls?\b|\bwhl\b/g, 'wheels'],
  [/\bgls\b/g, 'glass'],
  [/\bint\b/g, 'interior'],
  [/\brepros?\b|\breproductions?\b/g, 'repro'],
];

/** Parts that a short remark under a heading of `field` names as reproductions or as missing: one that it names none of is of that part. */
const partsOf = (text: string, field: string): Proposal | null => {
  let plain = plainWord(text);
  for (const [short, long] of shortForms) plain = plain.replace(short, long);
  const names: [RegExp, string][] = [
    [/wheel|tyre|tire|rader|roue/, 'wheels'],
    [/glass|window|windscreen|windshield|glazing|scheibe|vitre/, 'glazing'],
    [/interior|seat/, 'interior'],
    [/axle|achse/, 'axles'],
    [/label|decal|sticker/, 'labels'],
    [/roof/, 'roof'],
    [/base/, 'base'],
  ];
  const parts = names.filter(([pattern]) => pattern.test(plain)).map(([, part]) => part);
  const ofField = partNames.find(part => part === field) ?? '';
  const listed = partNames.filter(part => parts.includes(part)).join(',') || ofField;
  if (/repro|nachbau|replica/.test(plain)) return { field: 'reproduction_parts', meaning: listed };
  if (/missing|gone|fehl|manqu|\bno\b|without/.test(plain))
    return { field: 'missing_parts', meaning: listed };
  return null;
};

/**
 * True of a word about a finish that people mean differently: restored and customised cars
 * alike are "repainted".
 */
export const isAboutFinish = (text: string): boolean =>
  /re-?paint|over-?paint|lackier|repeint|refinish|re-?spray|resprayed|verniciat|repintad|overgespoten/i.test(
    text,
  );

/**
 * What a text in a column of this field most likely means. `colours` are those of the reference that it may
 * be short for. A text that people mean differently comes without a meaning.
 */
export const proposeMeaning = (field: string, text: string, colours: readonly string[] = []): Proposal => {
  if (field === 'grade') {
    const scale = scaleOf(text);
    return scale === null ? { field, meaning: gradeOf(text) } : { field: 'grade_scale', meaning: scale };
  }
  if (field === 'base_paint') {
    const word = plainWord(text);
    return { field, meaning: baseWords[word] ?? nearest(word, [...basePaints]) ?? '' };
  }
  if (field === 'colour') {
    const close = nearest(text, [...colours]);
    return { field, meaning: close ?? plainColourText(text) ?? '' };
  }
  const parts = field === 'finish_state' ? null : partsOf(text, field);
  if (parts) return parts;
  if (field === 'finish_state' || isAboutFinish(text)) {
    const close = isAboutFinish(text) ? null : nearest(plainWord(text), [...finishStates]);
    return { field: 'finish_state', meaning: close ?? '' };
  }
  const grade = field === '' ? gradeWords[plainWord(text)] : undefined;
  return grade ? { field: 'grade', meaning: grade } : { field, meaning: '' };
};
