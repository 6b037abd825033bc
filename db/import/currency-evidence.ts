import { signOfPaid } from '../../valuation/reading/amounts.ts';
import { currencyNamed, looksLikeCurrency } from '../../valuation/reading/currency.ts';
import type { Currency } from '../../valuation/types.ts';
import type { Cell } from './types.ts';

const mostSigns = 50;

/** Which currencies the amounts of a column name, so that one that names none is not taken for another. */
export class CurrencyEvidence {
  #bare = 0;
  readonly #named = new Map<string, number>();

  see(cell: Cell): void {
    const sign = signOfPaid(cell);
    if (sign === '') this.#bare++;
    else if (sign !== null && looksLikeCurrency(sign) && this.#named.size < mostSigns)
      this.#named.set(sign, (this.#named.get(sign) ?? 0) + 1);
  }

  /**
   * The one currency other than `own` that so many of the amounts name that one without may well be in it; null
   * where few do, or where they name several: those are written because they are not the owner's own.
   */
  otherThan(own: Currency): Currency | null {
    const others = new Set<Currency>();
    let count = 0;
    let all = this.#bare;
    for (const [sign, times] of this.#named) {
      const currency = currencyNamed(sign, own);
      all += times;
      if (currency === null || currency === own) continue;
      others.add(currency);
      count += times;
    }
    const [other = null] = others;
    return others.size === 1 && count * 3 >= all ? other : null;
  }
}

/** Why an amount that names no currency is not read beside others of its column that name one. */
export const bareAmong = (text: string, other: Currency, own: Currency): string =>
  `"${text}" names no currency, and others of its column are in ${other}: whether it is in ${own} is not known; choose the currency of amounts that name none, or write it behind the amount`;
