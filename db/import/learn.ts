import { currencyDecimals, isCurrency } from '../../valuation/money.ts';
import { type DateOrder, dateOrderOf, isAmbiguousDate } from '../../valuation/reading/date.ts';
import { type DecimalSign, decimalSignOf } from '../../valuation/reading/money.ts';
import { CurrencyEvidence } from './currency-evidence.ts';
import { cellText } from './files/cell-text.ts';
import type { Table } from './files/table.ts';
import { GradeEvidence } from './grade-evidence.ts';
import { type Mapping, widenMapping } from './mapping.ts';
import { warnOfMerged } from './merged-cells.ts';
import type { Cell, ColumnView, FormatQuestion, ImportOptions, LearnedFormat } from './types.ts';

/** Our columns that hold amounts, and those that hold days. */
export const moneyColumns: readonly string[] = ['price', 'price_paid', 'own_estimate', 'sold_for'];
export const dateColumns: readonly string[] = ['sold_on', 'bought_on'];

/**
 * Amounts that may name their currency, each with the column of ours in which rows say it instead. An owner's
 * estimates are in their own.
 */
const currencyColumns: Readonly<Record<string, string | null>> = {
  price: 'currency',
  price_paid: 'price_paid_currency',
  sold_for: null,
};

const shownExamples = 3;
const mostRemembered = 5000;

/** Texts that show one thing: how many cells, and the first of them. */
class Shown {
  cells = 0;
  readonly examples: string[] = [];
  see(text: string): void {
    this.cells++;
    if (this.examples.length < shownExamples && !this.examples.includes(text))
      this.examples.push(text.slice(0, 40));
  }
}

/** What a cell shows beyond doubt of how its column is written. */
type Certain = 'point' | 'comma' | 'dmy' | 'mdy';
const signs = { point: '.', comma: ',', dmy: 'dmy', mdy: 'mdy' } as const satisfies Record<
  Certain,
  DecimalSign | DateOrder
>;
/**
 * What a cell shows: something certain, a lone sign before three digits, or a day that can be read two ways.
 */
type Sign = Certain | 'group.' | 'group,' | 'open' | null;

const signOfAmount = (cell: Cell): Sign => {
  const sign = decimalSignOf(cell);
  if (sign !== 'both') return sign && (sign === ',' ? 'comma' : 'point');
  return String(cell).includes(',') ? 'group,' : 'group.';
};

const signOfDay = (cell: Cell): Sign => {
  const order = dateOrderOf(cell);
  return order === 'dmy' || order === 'mdy' ? order : isAmbiguousDate(cell) ? 'open' : null;
};

/** The order that a heading gives, as "Date (MM/DD/YYYY)" does; null where it gives none. */
const orderOfHeading = (heading: string): DateOrder | null => {
  const order = /(?<!\p{L})(mm?|dd?|tt|jj)[./ -](mm?|dd?|tt)[./ -](?:yy|jj|aa)/iu.exec(heading);
  if (!order) return null;
  return /^m/i.test(order[1] ?? '') ? 'mdy' : 'dmy';
};

/** The first day in figures within a text, or ''. */
const dayIn = (text: string): string =>
  /(?<![\d./-])\d{1,2}([./-])\d{1,2}\1(?:\d{4}|\d{2})(?![\d./-])/.exec(text)?.[0] ?? '';

/** A column of amounts or of days, and what its cells have shown so far. */
class ColumnEvidence {
  readonly column: ColumnView;
  readonly kind: 'decimal' | 'dates';
  readonly #shown = new Map<Sign, Shown>();
  readonly #known = new Map<Cell, Sign>();
  readonly #part: (text: string) => string;
  /** `part` finds the amount or day within a text that says more. */
  constructor(column: ColumnView, kind: 'decimal' | 'dates', part = (text: string) => text) {
    this.column = column;
    this.kind = kind;
    this.#part = part;
  }

  see(cell: Cell): void {
    if (typeof cell !== 'string' || cell === '') return;
    let sign = this.#known.get(cell);
    if (sign === undefined) {
      sign = this.kind === 'decimal' ? signOfAmount(cell) : signOfDay(this.#part(cell));
      if (this.#known.size < mostRemembered) this.#known.set(cell, sign);
    }
    if (sign === null) return;
    const shown = this.of(sign);
    this.#shown.set(sign, shown);
    shown.see(this.#part(cell).trim());
  }

  of(sign: Sign): Shown {
    return this.#shown.get(sign) ?? new Shown();
  }

  /** True where some cells show one thing and some the other. */
  isContradictory(): boolean {
    const [a, b] = this.#sides();
    return this.of(a).cells > 0 && this.of(b).cells > 0;
  }

  #sides(): [Certain, Certain] {
    return this.kind === 'decimal' ? ['point', 'comma'] : ['dmy', 'mdy'];
  }

  /** What the cells that leave no doubt show; null where they show both, or nothing. */
  certain(): { value: DecimalSign | DateOrder; shown: Shown } | null {
    const shown = this.#sides().filter(side => this.of(side).cells > 0);
    const [sign] = shown;
    if (!sign || shown.length > 1) return null;
    return { value: signs[sign], shown: this.of(sign) };
  }
}

/**
 * What all columns of one kind show together, for one whose own cells leave it open; null
 * where they disagree.
 */
const agreed = (columns: ColumnEvidence[]): { value: DecimalSign | DateOrder; column: string } | null => {
  if (columns.some(column => column.isContradictory())) return null;
  const shown = columns.flatMap(column => {
    const certain = column.certain();
    return certain ? [{ value: certain.value, column: column.column.heading }] : [];
  });
  const [first] = shown;
  return first && shown.every(({ value }) => value === first.value) ? first : null;
};

const choice = <T>(choices: Record<string, T>, heading: string): T | undefined =>
  Object.entries(choices).find(
    ([theirs]) => theirs.trim().toLowerCase() === heading.trim().toLowerCase(),
  )?.[1] ?? choices['*'];

/** What the whole file was found to be. */
export interface Learned {
  rows: number;
  /** Inventory numbers that the file brings: none of them is free to be given to another car. */
  numbers: string[];
  learned: LearnedFormat[];
  questions: FormatQuestion[];
  /** True where the figures of its grades may be of another scale than C1 to C10. */
  hasDoubtfulGrades: boolean;
}

const mostSampled = 400;
const samplesOf = 5;

/** Sees every row of a file once, and says how each column of amounts and of days is written. */
export class Learner {
  readonly #mapping: Mapping;
  readonly #options: ImportOptions;
  readonly #money: ColumnEvidence[] = [];
  readonly #days: ColumnEvidence[] = [];
  readonly #currencies: { index: number; evidence: CurrencyEvidence }[] = [];
  #width = 0;
  readonly #grades: GradeEvidence;
  readonly #numbers: string[] = [];
  #rows = 0;

  constructor(mapping: Mapping, options: ImportOptions) {
    this.#mapping = mapping;
    this.#grades = new GradeEvidence(mapping);
    this.#options = options;
    this.widen();
  }

  /** Looks at columns that have come to the mapping since. */
  widen(): void {
    for (const column of this.#mapping.columns.slice(this.#width)) {
      if (column.ours === null) continue;
      if (moneyColumns.includes(column.ours)) {
        this.#money.push(new ColumnEvidence(column, 'decimal'));
        const named = currencyColumns[column.ours];
        if (named === null || named === undefined || !this.#mapping.places.has(named)) {
          const evidence = new CurrencyEvidence(column.heading, named !== undefined);
          this.#currencies.push({ index: column.index, evidence });
          this.#mapping.currencies.set(column.ours, evidence);
        }
      }
      if (dateColumns.includes(column.ours)) this.#days.push(new ColumnEvidence(column, 'dates'));
      if (
        column.ours === 'description' &&
        this.#options.as === 'sales' &&
        !this.#mapping.places.has('sold_on')
      )
        this.#days.push(new ColumnEvidence(column, 'dates', dayIn));
    }
    this.#width = this.#mapping.columns.length;
  }

  /** A row that is not blank. */
  see(cells: Cell[]): void {
    this.#rows++;
    if (this.#rows <= mostSampled)
      for (const { index, samples } of this.#mapping.columns) {
        if (samples.length >= samplesOf) continue;
        const text = cellText(cells[index] ?? null);
        if (text && !samples.includes(text)) samples.push(text.slice(0, 80));
      }
    const place = this.#mapping.places.get('inventory_number');
    const number = place === undefined ? '' : cellText(cells[place] ?? null);
    if (number) this.#numbers.push(number);
    this.#grades.see(cells);
    for (const column of this.#money) column.see(cells[column.column.index] ?? null);
    for (const column of this.#days) column.see(cells[column.column.index] ?? null);
    for (const { index, evidence } of this.#currencies) evidence.see(cells[index] ?? null);
  }

  /**
   * Writes what was learned into the mapping; what stays in doubt becomes a question, and a warning in words.
   */
  finish(): Learned {
    const learned: LearnedFormat[] = [];
    const questions: FormatQuestion[] = [];
    for (const column of this.#days) this.#settleDays(column, learned, questions);
    for (const column of this.#money) this.#settleAmounts(column, learned, questions);
    return {
      rows: this.#rows,
      numbers: this.#numbers,
      learned,
      questions,
      hasDoubtfulGrades: this.#grades.isDoubtful(),
    };
  }

  #settleDays(evidence: ColumnEvidence, learned: LearnedFormat[], questions: FormatQuestion[]): void {
    const { column } = evidence;
    const open = evidence.of('open');
    const chosen = choice<DateOrder>(this.#options.dateOrder, column.heading);
    const { heading } = column;
    const headed = orderOfHeading(heading);
    const certain = evidence.certain();
    const isContradictory = evidence.isContradictory();
    // A heading that its own cells speak against settles nothing, and neither do they.
    const isDenied = headed !== null && (isContradictory || (certain !== null && certain.value !== headed));
    const other = headed || certain || isContradictory ? null : agreed(this.#days);
    const found = isDenied ? null : (headed ?? ((certain ?? other)?.value as DateOrder | undefined) ?? null);
    column.dateOrder = chosen ?? found;
    if (column.dateOrder)
      learned.push({
        column: heading,
        kind: 'dates',
        value: column.dateOrder,
        ...(chosen
          ? { from: 'your answer' as const, ...seen(open) }
          : headed
            ? { from: 'its heading' as const, ...seen(open) }
            : certain
              ? { from: 'its cells' as const, ...seen(certain.shown) }
              : { from: 'another column' as const, other: other?.column ?? '', ...seen(open) }),
      });
    if (chosen || open.cells === 0) return;
    const { warnings } = this.#mapping;
    const first = found === 'dmy' ? 'day' : 'month';
    if (found !== null && headed === null)
      warnings.push(
        certain
          ? `"${heading}" is read ${first} first, as ${certain.shown.cells} of its dates can only be read so.`
          : `"${heading}" is read ${first} first, as the dates of "${other?.column}" are.`,
      );
    if (found === null) {
      questions.push({ column: heading, kind: 'dates', choices: ['dmy', 'mdy'], ...seen(open) });
      warnings.push(
        isContradictory
          ? `"${heading}" has dates with the day first and dates with the month first; the ${open.cells} that can be read both ways are saved as written until an order is chosen.`
          : isDenied
            ? `"${heading}" says another order than its dates show; the ${open.cells} that can be read both ways are saved as written until an order is chosen.`
            : open.cells === 1
              ? `"${heading}" has one date that can be read day first or month first, and none that shows which; it is saved as written until an order is chosen.`
              : `"${heading}" has ${open.cells} dates that can be read day first or month first, and none that shows which; they are saved as written until an order is chosen.`,
      );
    }
  }

  #settleAmounts(evidence: ColumnEvidence, learned: LearnedFormat[], questions: FormatQuestion[]): void {
    const { column } = evidence;
    const { heading, ours } = column;
    const chosen = choice<DecimalSign>(this.#options.decimal, heading) ?? null;
    const certain = evidence.certain();
    const other = certain || evidence.isContradictory() ? null : agreed(this.#money);
    const usual = ((certain ?? other)?.value as DecimalSign | undefined) ?? null;
    column.decimal = chosen ?? usual;
    if (ours) this.#mapping.money.set(ours, { chosen, usual });
    if (column.decimal)
      learned.push({
        column: heading,
        kind: 'decimal',
        value: column.decimal,
        ...(chosen
          ? { from: 'your answer' as const, cells: 0, examples: [] }
          : certain
            ? { from: 'its cells' as const, ...seen(certain.shown) }
            : { from: 'another column' as const, other: other?.column ?? '', cells: 0, examples: [] }),
      });
    if (chosen) return;
    // Where the other amounts part decimals with that very sign, a thousand is likelier but not certain.
    for (const [group, shown] of [
      ['group,', evidence.of('comma')],
      ['group.', evidence.of('point')],
    ] as const) {
      const doubtful = evidence.of(group);
      if (doubtful.cells === 0) continue;
      const needsSign = decimalsOf(this.#options) >= 3 && usual === null;
      if (shown.cells === 0 && !needsSign) continue;
      if (!questions.some(question => question.column === heading))
        questions.push({ column: heading, kind: 'decimal', choices: ['.', ','], ...seen(doubtful) });
      if (shown.cells > 0)
        this.#mapping.warnings.push(
          `"${heading}" has amounts such as "${doubtful.examples[0]}" (${doubtful.cells}), although others have the ${group === 'group,' ? 'comma' : 'point'} before their decimals: read as thousands. Choose the decimal sign of this column if they are not.`,
        );
    }
  }
}

const seen = ({ cells, examples }: Shown) => ({ cells, examples });

const decimalsOf = ({ currency }: ImportOptions): number =>
  currency && isCurrency(currency) ? currencyDecimals(currency) : 2;

/**
 * Reads the whole file once: finds each column's decimal sign and order of dates from the values that leave
 * no doubt, keeps the first values as samples, and counts the rows. What stays in doubt becomes a question.
 * Headings that stand further down come to the mapping.
 */
export const learnFormats = async (
  table: Table,
  mapping: Mapping,
  options: ImportOptions,
  signal?: AbortSignal,
): Promise<Learned> => {
  const learner = new Learner(mapping, options);
  const told = new Set<number>();
  for await (const batch of table.rows()) {
    signal?.throwIfAborted();
    if (table.headings.length > mapping.columns.length) {
      widenMapping(mapping, table, options);
      learner.widen();
    }
    for (const row of batch) {
      if (row.not !== undefined) continue;
      learner.see(row.cells);
      warnOfMerged(row, mapping, told);
    }
  }
  return learner.finish();
};
