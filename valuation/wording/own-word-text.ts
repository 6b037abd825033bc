import { gradeLabel, grades } from '../words.ts';
import { spell } from './dialect.ts';

/** What an owner's text means: a field by the names of imports, and its value as that field writes it. */
export interface Meaning {
  field: string;
  meaning: string;
}

const special: Record<string, string> = {
  grade_scale: 'scale of grades',
  nothing: 'nothing',
  notes: 'a note',
  sold_for: 'sold for',
};

/** A field as it is read: "base paint", "color". */
export const fieldName = (field: string, locale: string): string =>
  spell(special[field] ?? field.replaceAll('_', ' '), locale);

const gradeText = (meaning: string): string => {
  const grade = grades.find(one => String(one) === meaning.trim().replace(/^c/i, ''));
  return grade === undefined ? meaning : gradeLabel(grade);
};

const partList = (meaning: string): string =>
  meaning
    .split(',')
    .map(part => part.trim())
    .filter(Boolean)
    .join(', ');

/** A meaning without its field, where that is plain from what stands beside it: "none", "C9.5", "wheels". */
export const meaningValue = ({ field, meaning }: Meaning, locale: string): string => {
  if (field === 'grade') return gradeText(meaning);
  if (field === 'nothing') return 'nothing';
  if (field === 'notes') return 'not a value: saved in the notes';
  if (field === 'finish_state') return spell(meaning, locale);
  if (field === 'missing_parts') return `${partList(meaning)} missing`;
  if (field === 'reproduction_parts') return `reproduction ${partList(meaning)}`;
  return meaning;
};

const standingAlone = new Set(['grade', 'nothing', 'notes', 'missing_parts', 'reproduction_parts']);

/** A meaning with its field: "base paint none", "C9.5", "reproduction wheels". */
export const meaningText = (meaning: Meaning, locale: string): string => {
  const value = meaningValue(meaning, locale);
  return standingAlone.has(meaning.field) ? value : `${fieldName(meaning.field, locale)} ${value}`;
};
