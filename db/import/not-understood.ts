import { proposeMeaning } from '../../valuation/reading/propose.ts';
import { plainHeading } from '../records/unread.ts';
import { plain } from '../reference/plain.ts';
import type { UnreadCell } from './judges/judge.ts';
import type { NotUnderstood } from './types.ts';

const mostTexts = 5000;
const mostLines = 100;

/**
 * Gathers the distinct texts of a file that were not understood, column by column, with what they may mean.
 */
export class NotUnderstoodTexts {
  readonly #texts = new Map<string, NotUnderstood>();
  readonly #colours: readonly string[];
  /** True where bare figures wait for the scale of their column. */
  readonly #asksScale: boolean;

  constructor(colours: readonly string[], asksScale: boolean) {
    this.#colours = colours;
    this.#asksScale = asksScale;
  }

  add(line: number, unread: readonly UnreadCell[]): void {
    for (const { column, text, field } of unread) {
      if (field === '' || text === '') continue;
      const proposed = proposeMeaning(field, text, this.#colours);
      const isOfScale =
        proposed.field === 'grade_scale' || (field === 'grade' && this.#asksScale && /^\d/.test(text));
      if (isOfScale) {
        this.#see(line, column, '*', 'grade_scale', proposed.field === 'grade_scale' ? proposed.meaning : '');
        this.#see(line, column, text, 'grade', '');
      } else this.#see(line, column, text, proposed.field, proposed.meaning);
    }
  }

  #see(line: number, column: string, text: string, field: string, meaning: string): void {
    const key = `${plainHeading(column)}\u0001${plain(text)}\u0001${field}`;
    let known = this.#texts.get(key);
    if (!known) {
      if (this.#texts.size >= mostTexts) return;
      known = { column, text: text.slice(0, 200), field, meaning, count: 0, lines: [] };
      this.#texts.set(key, known);
    }
    known.count++;
    if (known.lines.length < mostLines) known.lines.push(line);
  }

  /** The most frequent first. */
  list(): NotUnderstood[] {
    return [...this.#texts.values()].sort((a, b) => b.count - a.count);
  }
}
