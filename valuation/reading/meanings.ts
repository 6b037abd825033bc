import { isCurrency, unknownCurrency } from '../money.ts';
import { readEstimate, readPaid, readQuantity } from './amounts.ts';
import { readDate } from './date.ts';
import { featureColumnsBut } from './feature-columns.ts';
import { readGradeScale } from './grade-scale.ts';
import { notUnderstood, type Reading, understood } from './reading.ts';
import {
  plainWord,
  readBasePaint,
  readFinishState,
  readGrade,
  readParts,
  readRarity,
  readStatus,
  readYear,
} from './words.ts';

/** Fields whose text stays as it is written. */
const textFields = [
  'maker',
  'series',
  'casting',
  'release_name',
  ...featureColumnsBut('base_paint'),
  'location',
  'notes',
  'seller',
  'source',
  'reference',
  'price',
  'currency',
] as const;

const asText = <T>(read: (text: string) => Reading<T>) => {
  return (text: string): Reading<string> => {
    const reading = read(text);
    if (!reading.ok) return reading;
    return understood(Array.isArray(reading.value) ? reading.value.join(',') : String(reading.value));
  };
};

/** An amount stays as it is written, since the currency of one that names none is that of its lot. */
const amount = (read: (text: string) => Reading<unknown>) => {
  return (text: string): Reading<string> => {
    const reading = read(text);
    return reading.ok ? understood(text) : reading;
  };
};

const currencyCode = (text: string): Reading<string> => {
  const code = text.toUpperCase();
  return isCurrency(code) ? understood(code) : notUnderstood(`${unknownCurrency(text)}`);
};

const readers: Record<string, (text: string) => Reading<string>> = {
  grade: asText(readGrade),
  finish_state: asText(readFinishState),
  base_paint: asText(readBasePaint),
  missing_parts: asText(readParts),
  reproduction_parts: asText(readParts),
  release_year: asText(readYear),
  rarity: asText(readRarity),
  status: asText(readStatus),
  quantity: asText(readQuantity),
  price_paid: amount(text => readPaid(text, 'USD', {})),
  own_estimate: amount(text => readEstimate(text, 'USD', {})),
  sold_for: amount(text => readPaid(text, 'USD', {})),
  price_paid_currency: currencyCode,
  bought_on: asText(text => readDate(text, null, null)),
  sold_on: asText(text => readDate(text, null, null)),
  grade_scale: text => {
    const scale = readGradeScale(text);
    return scale.ok ? understood(text.trim()) : scale;
  },
  nothing: () => understood(''),
};

/**
 * What a text can be said to mean: one of a car's or a sale's fields, the scale of a column of grades,
 * or nothing at all.
 */
export const wordFields: readonly string[] = [...Object.keys(readers), ...textFields];

const aliases: Record<string, string> = {
  year: 'release_year',
  finish: 'finish_state',
  base: 'base_paint',
  color: 'colour',
  paint: 'colour',
  condition: 'grade',
  cond: 'grade',
  scale: 'grade_scale',
  missing: 'missing_parts',
  reproduction: 'reproduction_parts',
  repro: 'reproduction_parts',
  paid: 'price_paid',
  ignore: 'nothing',
  none: 'nothing',
};

/** A field as people write its name: "base paint", "Finish"; null where there is none of that name. */
export const wordField = (written: string): string | null => {
  const name = plainWord(written)
    .replace(/[.:]+$/, '')
    .replaceAll(' ', '_');
  const field = Object.hasOwn(aliases, name) ? aliases[name] : name;
  return field !== undefined && wordFields.includes(field) ? field : null;
};

/**
 * What the owner says that a text means, as its field writes it: "C9.5" of a grade is "9.5", parts have
 * commas between them. Refused, naming the choices, where the field has no such meaning or is none.
 */
export const readMeaning = (field: string, meaning: string): Reading<string> => {
  const name = wordField(field);
  if (name === null)
    return notUnderstood(
      `"${field}" is not a field; it is one of: ${wordFields.join(', ').replaceAll('_', ' ')}`,
    );
  const reader = readers[name];
  if (name !== 'nothing' && meaning.trim() === '') return notUnderstood('say what it means');
  return reader ? reader(meaning.trim()) : understood(meaning.trim());
};
