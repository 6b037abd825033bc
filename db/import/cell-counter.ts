import type { ReadRow, UnreadCell } from './judges/judge.ts';
import { saysSomething } from './judges/says-something.ts';
import type { Mapping } from './mapping.ts';
import type { CellCounts } from './types.ts';

/**
 * Counts of the cells of rows how many were understood, wholly or in part; blank ones, and a dash
 * alone, are none.
 */
export class CellCounter {
  readonly #mapping: Mapping;
  readonly #counts: CellCounts;

  /** What is counted is added to `counts`. */
  constructor(mapping: Mapping, counts: CellCounts) {
    this.#mapping = mapping;
    this.#counts = counts;
  }

  see({ texts }: ReadRow, unread: readonly UnreadCell[]): void {
    if (unread.length === 0) {
      // So it is with most rows.
      for (const { index, ours } of this.#mapping.columns)
        if (saysSomething(texts[index] ?? '')) this.#counts[ours === null ? 'idle' : 'understood']++;
      return;
    }
    for (const { index, heading, ours } of this.#mapping.columns) {
      const text = texts[index] ?? '';
      if (!saysSomething(text)) continue;
      const left = unread.filter(cell => cell.column === heading);
      if (left.length === 0) this.#counts[ours === null ? 'idle' : 'understood']++;
      else this.#counts[left.some(cell => cell.text.length >= text.length) ? 'unknown' : 'partly']++;
    }
  }
}
