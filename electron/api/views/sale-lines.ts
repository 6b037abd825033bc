import type { DateOrders } from '../../../valuation/reading/sale-line/price-and-day.ts';
import type { SaleLine } from '../../../valuation/reading/sale-line/read-sale-line.ts';

/** A line of a text of sales as it was read, and after adding what became of it. */
export interface SaleLineRow
  extends Pick<SaleLine, 'text' | 'fields' | 'spans' | 'castingId' | 'name' | 'unread' | 'not'> {
  line: number;
  /** Recorded already, or the same as a line before it. */
  known: boolean;
  outcome?: 'added' | 'known already' | 'left out';
}

export interface ReadSaleLines {
  rows: SaleLineRow[];
  /** How dates were read, and what is asked. */
  notes: string[];
  /** Day or month first, for each sign of which the lines show it or the owner has said it. */
  dateOrders: DateOrders;
  /** Lines whose date can be read day first or month first. */
  openDates: { lines: number; example: string | null };
  /** Lines whose price names no currency; they are read in this one. */
  unnamedCurrency: { lines: number; currency: string };
}

export interface AddedSaleLines extends ReadSaleLines {
  added: number;
  known: number;
  leftOut: number;
}
