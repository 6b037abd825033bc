import { type GradeScale, readGradeScale } from '../../../valuation/reading/grade-scale.ts';
import { readMeaning, wordField } from '../../../valuation/reading/meanings.ts';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { plainHeading } from '../../records/unread.ts';
import { plain } from '../../reference/plain.ts';

const keyOf = (column: string, text: string) =>
  `${column === '*' ? '*' : plainHeading(column)}\u0001${plain(text)}`;

/**
 * The owner's words, found by the column and the text of a cell. Words that say nothing which their field
 * has are left out.
 */
export class WordBook {
  readonly words: readonly OwnWord[];
  readonly #byText = new Map<string, OwnWord[]>();
  readonly #scales = new Map<string, GradeScale>();

  constructor(words: readonly OwnWord[]) {
    const kept: OwnWord[] = [];
    for (const given of words) {
      const meaning = readMeaning(given.field, given.meaning);
      const field = wordField(given.field);
      if (!meaning.ok || field === null) continue;
      const word = { column: given.column || '*', text: given.text, field, meaning: meaning.value };
      kept.push(word);
      if (field === 'grade_scale') {
        const scale = readGradeScale(word.meaning);
        if (scale.ok) this.#scales.set(word.column === '*' ? '*' : plainHeading(word.column), scale.value);
        continue;
      }
      const key = keyOf(word.column, word.text);
      const known = (this.#byText.get(key) ?? []).filter(one => one.field !== field);
      this.#byText.set(key, [...known, word]);
    }
    this.words = kept;
  }

  get isEmpty(): boolean {
    return this.#byText.size === 0;
  }

  /** What is said of a text: by a word of its column, or else of any. */
  of(column: string, text: string): readonly OwnWord[] {
    if (this.isEmpty || text === '') return [];
    return this.#byText.get(keyOf(column, text)) ?? this.#byText.get(keyOf('*', text)) ?? [];
  }

  scaleOf(column: string): GradeScale | null {
    return this.#scales.get(plainHeading(column)) ?? this.#scales.get('*') ?? null;
  }
}
