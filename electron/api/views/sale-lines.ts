import type { SaleLine } from '../../../valuation/reading/sale-line/read-sale-line.ts';

/** A line of a text of sales as it was read, and after adding what became of it. */
export interface SaleLineRow extends Pick<SaleLine, 'text' | 'fields' | 'spans' | 'unread' | 'not'> {
  line: number;
  outcome?: 'added' | 'known already' | 'left out';
}

export interface ReadSaleLines {
  rows: SaleLineRow[];
  /** How dates were read, and what is asked. */
  notes: string[];
}

export interface AddedSaleLines extends ReadSaleLines {
  added: number;
  known: number;
  leftOut: number;
}
