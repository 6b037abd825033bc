import { signOfPaid } from '../../valuation/reading/amounts.ts';
import { currenciesOfHeading, currencyNamed, looksLikeCurrency } from '../../valuation/reading/currency.ts';
import type { Currency } from '../../valuation/types.ts';
import type { Cell, FormatQuestion, ImportOptions, LearnedFormat } from './types.ts';

const mostSigns = 50;
const shownExamples = 3;

/** Which currencies the amounts of a column name, so that one that names none is not taken for another. */
export class CurrencyEvidence {
  readonly heading: string;
  /** False where its own bare amounts are never asked about, though they speak for those of other columns. */
  readonly isAsked: boolean;
  /** Of the amounts that name none; null where nobody can tell. */
  bareIn: Currency | null = null;
  bare = 0;
  readonly examples: string[] = [];
  readonly #named = new Map<string, number>();
  readonly #signed: string[] = [];

  constructor(heading: string, isAsked = true) {
    this.heading = heading;
    this.isAsked = isAsked;
  }

  see(cell: Cell): void {
    const sign = signOfPaid(cell);
    if (sign === '') {
      this.bare++;
      if (this.examples.length < shownExamples) this.examples.push(String(cell).slice(0, 40));
      return;
    }
    // A range, or an amount in doubt, names its currency all the same.
    const named = sign ?? (typeof cell === 'string' ? (/\p{Sc}/u.exec(cell)?.[0] ?? null) : null);
    if (named === null || !looksLikeCurrency(named) || this.#named.size >= mostSigns) return;
    this.#named.set(named, (this.#named.get(named) ?? 0) + 1);
    if (this.#signed.length < shownExamples) this.#signed.push(String(cell).slice(0, 40));
  }

  /**
   * The one currency other than `own` that so many of the amounts name that one without may well be in it; null
   * where few do, or where they name several: those are written because they are not the owner's own.
   */
  otherThan(own: Currency): Currency | null {
    const others = new Set<Currency>();
    let count = 0;
    let all = this.bare;
    for (const [sign, times] of this.#named) {
      const currency = currencyNamed(sign, own);
      all += times;
      if (currency === null || currency === own) continue;
      others.add(currency);
      count += times;
    }
    const [other = null] = others;
    return others.size === 1 && count * 5 >= all ? other : null;
  }

  /** The currencies of which all that name one may be, as "kr"; none where few do, or where it is told. */
  openIn(own: Currency): Currency[] {
    const open = new Set<Currency>();
    let count = 0;
    for (const [sign, times] of this.#named) {
      const may = currencyNamed(sign, own) === null ? currenciesOfHeading(sign, own) : [];
      if (may.length === 0) return [];
      for (const one of may) open.add(one);
      count += times;
    }
    return count * 5 >= count + this.bare ? [...open] : [];
  }

  /** How many amounts name a currency, and the first of them. */
  get signed(): { cells: number; examples: string[] } {
    return {
      cells: [...this.#named.values()].reduce((sum, times) => sum + times, 0),
      examples: this.#signed,
    };
  }

  /** The one currency other than `own` that the heading, or most of the amounts, name; null where there is none such. */
  speaksFor(own: Currency): Currency | null {
    const headed = currenciesOfHeading(this.heading, own);
    if (headed.length > 0) return headed.length === 1 && headed[0] !== own ? (headed[0] ?? null) : null;
    return this.signed.cells > this.bare ? this.otherThan(own) : null;
  }
}

/** The currency other than `own` in which all other columns are that name one; null where they name several, or none. */
const beside = (
  evidence: CurrencyEvidence,
  all: readonly CurrencyEvidence[],
  own: Currency,
): Currency | null => {
  const named = new Set(all.flatMap(one => (one === evidence ? [] : (one.speaksFor(own) ?? []))));
  const [only = null] = named;
  return named.size === 1 ? only : null;
};

/**
 * Settles for each column of amounts in which currency those are that name none: as its owner says, as its heading
 * says, or else in `own` where nothing speaks against it. What stays open becomes a question.
 */
export const settleCurrencies = (
  currencies: ReadonlyMap<string, CurrencyEvidence>,
  own: Currency,
  { currency, bareCurrency = {} }: ImportOptions,
): { learned: LearnedFormat[]; questions: FormatQuestion[] } => {
  const learned: LearnedFormat[] = [];
  const questions: FormatQuestion[] = [];
  const all = [...currencies.values()];
  for (const evidence of all.filter(({ isAsked }) => isAsked)) {
    const { heading: column, bare, examples } = evidence;
    const seen = { column, kind: 'currency' as const, cells: bare, examples };
    const headed = currenciesOfHeading(column, own);
    const ofHeading = headed.length === 1 ? headed[0] : undefined;
    // A list in one currency names it in one column and leaves it out in the next.
    const other =
      evidence.otherThan(own) ?? (evidence.signed.cells === 0 ? beside(evidence, all, own) : null);
    const said = bareCurrency[column] ?? (ofHeading ? undefined : bareCurrency['*']);
    const signs = evidence.openIn(own);
    const open = [...headed, ...signs];
    const isOwn = currency !== undefined || (open.length === 0 && other === null);
    evidence.bareIn = said ?? ofHeading ?? (isOwn ? own : null);
    // Where all have one sign of several currencies, its meaning is asked.
    if (bare === 0 && signs.length > 0 && evidence.bareIn === null)
      questions.push({ ...seen, ...evidence.signed, choices: [...new Set([...open, own])] });
    if (bare === 0) continue;
    if (said) learned.push({ ...seen, value: said, from: 'your answer' });
    else if (ofHeading) learned.push({ ...seen, value: ofHeading, from: 'its heading' });
    else if (evidence.bareIn === null)
      questions.push({ ...seen, choices: [...new Set([...open, ...(other ? [other] : []), own])] });
  }
  return { learned, questions };
};
