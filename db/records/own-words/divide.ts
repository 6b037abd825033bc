import { readGradeScale, readOnScale } from '../../../valuation/reading/grade-scale.ts';
import { readMeaning } from '../../../valuation/reading/meanings.ts';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { type HeardText, isSaidOf, plainHeading, type UnreadText } from '../unread.ts';

/** What of a row's unread texts words settle, what each gives by its fields, and which texts stay. */
export interface Divided {
  settled: HeardText[];
  rest: UnreadText[];
}

/** True where a scale is said of the column of a text that is about condition. */
export const isOfScale = (word: OwnWord, { column, field }: Pick<UnreadText, 'column' | 'field'>): boolean =>
  word.field === 'grade_scale' &&
  (word.column === '*' || plainHeading(word.column) === plainHeading(column)) &&
  (field === '' || field === 'grade');

/** The values that words give to a text: by its own word, or on the scale that was said for its column. */
const heardAs = ({ column, text, field }: UnreadText, words: readonly OwnWord[]): HeardText | null => {
  const gave: Record<string, string> = {};
  let isSettled = false;
  let byScale = false;
  // What is said of its own column goes before what is said of any.
  const own = words.filter(word => word.column !== '*' && isSaidOf(word, { column, text }));
  for (const word of words) {
    if (isOfScale(word, { column, field })) {
      const scale = readGradeScale(word.meaning);
      const grade = scale.ok ? readOnScale(text, scale.value) : scale;
      if (!grade.ok || gave.grade !== undefined) continue;
      if (isSettled) continue;
      gave.grade = String(grade.value);
      isSettled = true;
      byScale = true;
    } else if (word.field !== 'grade_scale' && isSaidOf(word, { column, text })) {
      if (word.column === '*' && own.length > 0) continue;
      const meaning = readMeaning(word.field, word.meaning);
      if (!meaning.ok) continue;
      if (word.field !== 'nothing') gave[word.field] = meaning.value;
      isSettled = true;
      byScale = false;
    }
  }
  return isSettled ? { column, text, field, gave, ...(byScale && { byScale: true as const }) } : null;
};

/** Without the values of fields that their own columns give otherwise, as in an import. */
const yielding = (heard: HeardText, { isOriginal }: UnreadText, all: readonly HeardText[]): HeardText => {
  const gave = Object.entries(heard.gave).filter(
    ([field]) =>
      !(isOriginal && field === 'finish_state') &&
      (field === heard.field || !all.some(one => one.field === field && one.gave[field] !== undefined)),
  );
  return { ...heard, gave: Object.fromEntries(gave) };
};

/**
 * Which unread texts words settle, and which stay. A text that means nothing but what another of its row says
 * in the column of that very field gives nothing, and stays too, no longer as one of its own field.
 */
export const divide = (unread: readonly UnreadText[], words: readonly OwnWord[]): Divided => {
  const heard = unread.map(entry => (entry.holds ? null : heardAs(entry, words)));
  const all = heard.flatMap(one => one ?? []);
  const settled: HeardText[] = [];
  const rest: UnreadText[] = [];
  for (const [at, entry] of unread.entries()) {
    const one = heard[at];
    if (!one) {
      rest.push(entry);
      continue;
    }
    const left = yielding(one, entry, all);
    settled.push(left);
    const gaveUp = Object.keys(left.gave).length === 0 && Object.keys(one.gave).length > 0;
    if (gaveUp) rest.push({ ...entry, field: '' });
  }
  return { settled, rest };
};

/** The first value that was given to a field. */
export const valueGiven = (settled: readonly HeardText[], field: string): string | undefined =>
  settled.map(({ gave }) => gave[field]).find(value => value !== undefined);
