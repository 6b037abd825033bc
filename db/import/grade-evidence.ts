import { plainWord } from '../../valuation/reading/words.ts';
import { cellText } from './files/cell-text.ts';
import type { Mapping } from './mapping.ts';
import type { Cell } from './types.ts';

const fewest = 3;
/** Grades in letters, of a scale of their own. Common practice, no source. */
const letters = /^(?:n?m|mint|nm|ex|exc|vg|vgc|g|gd|f|fr|p)[ ]?[+-]{0,2}$/i;
const markHeadings = /^(note|schulnote|zustand|zensur)$/;

/**
 * What the cells of a column of grades show of its scale: bare figures alone do not say whether 4 is of 10,
 * of 5 or a school mark.
 */
export class GradeEvidence {
  readonly #place: number | undefined;
  readonly #isOurs: boolean;
  readonly #isOfMarks: boolean;
  #explicit = 0;
  #bare = 0;
  #highest = 0;
  #signed = 0;
  #letters = 0;

  constructor(mapping: Mapping) {
    this.#place = mapping.places.get('grade');
    const column = this.#place === undefined ? undefined : mapping.columns[this.#place];
    // Our own lists are in our own grades.
    this.#isOurs =
      column?.how === 'same name' && mapping.places.has('finish_state') && mapping.places.has('casting')
        ? mapping.columns.filter(({ how }) => how === 'same name').length >= 4
        : false;
    this.#isOfMarks = markHeadings.test(plainWord(column?.heading ?? ''));
  }

  see(cells: readonly Cell[]): void {
    if (this.#place === undefined) return;
    const text = cellText(cells[this.#place] ?? null);
    if (/^c ?\.?\d|\/ ?10$/i.test(text)) this.#explicit++;
    else if (/^\d{1,3}([.,]\d+)?( ?½)?$/.test(text)) {
      this.#bare++;
      this.#highest = Math.max(this.#highest, Number(text.replace(',', '.').replace(/ ?½/, '')));
    } else if (/^[1-6] ?[+-]$/.test(text)) this.#signed++;
    else if (letters.test(text)) this.#letters++;
  }

  /**
   * True where the bare figures of the column may be of another scale than C1 to C10, so that
   * its owner is asked.
   */
  isDoubtful(): boolean {
    if (this.#isOurs || this.#explicit > 0 || this.#bare === 0) return false;
    if (this.#highest > 10) return true;
    const many = this.#bare + this.#signed >= fewest;
    if (this.#highest <= 6 && (this.#signed > 0 || (many && this.#isOfMarks))) return true;
    // Beside letters the list has no scale of figures that could be told from its figures.
    if (this.#highest <= 6 && this.#letters > this.#bare) return true;
    return this.#highest <= 5 && many;
  }
}
