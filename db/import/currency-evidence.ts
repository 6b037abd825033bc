import { signOfPaid } from '../../valuation/reading/amounts.ts';
import { currenciesOfHeading, currencyNamed, looksLikeCurrency } from '../../valuation/reading/currency.ts';
import type { Currency } from '../../valuation/types.ts';
import type { Cell, FormatQuestion, ImportOptions, LearnedFormat } from './types.ts';

const mostSigns = 50;
const shownExamples = 3;

/** Which currencies the amounts of a column name, so that one that names none is not taken for another. */
export class CurrencyEvidence {
  readonly heading: string;
  /** Of the amounts that name none; null where nobody can tell. */
  bareIn: Currency | null = null;
  bare = 0;
  readonly examples: string[] = [];
  readonly #named = new Map<string, number>();

  constructor(heading: string) {
    this.heading = heading;
  }

  see(cell: Cell): void {
    const sign = signOfPaid(cell);
    if (sign === '') {
      this.bare++;
      if (this.examples.length < shownExamples) this.examples.push(String(cell).slice(0, 40));
    } else if (sign !== null && looksLikeCurrency(sign) && this.#named.size < mostSigns)
      this.#named.set(sign, (this.#named.get(sign) ?? 0) + 1);
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
}

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
  for (const evidence of currencies.values()) {
    const { heading: column, bare, examples } = evidence;
    const seen = { column, kind: 'currency' as const, cells: bare, examples };
    const headed = currenciesOfHeading(column, own);
    const ofHeading = headed.length === 1 ? headed[0] : undefined;
    const other = evidence.otherThan(own);
    const said = bareCurrency[column] ?? (ofHeading ? undefined : bareCurrency['*']);
    const isOwn = currency !== undefined || (headed.length === 0 && other === null);
    evidence.bareIn = said ?? ofHeading ?? (isOwn ? own : null);
    if (bare === 0) continue;
    if (said) learned.push({ ...seen, value: said, from: 'your answer' });
    else if (ofHeading) learned.push({ ...seen, value: ofHeading, from: 'its heading' });
    else if (evidence.bareIn === null)
      questions.push({ ...seen, choices: [...new Set([...headed, ...(other ? [other] : []), own])] });
  }
  return { learned, questions };
};
