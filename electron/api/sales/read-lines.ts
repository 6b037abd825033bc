import type { Kysely } from 'kysely';
import { saleLinesIn } from '../../../db/import/sale-lines.ts';
import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { placesOfSales } from '../../../db/records/sales/sale-places.ts';
import { plain } from '../../../db/reference/plain.ts';
import { loadSaleLexicon } from '../../../db/reference/sale-lexicon.ts';
import { settledNames } from '../../../db/reference/settled-names.ts';
import type { Schema } from '../../../db/schema.ts';
import { currencyOfAmount } from '../../../valuation/reading/money.ts';
import {
  type DateOrders,
  dateOrdersOf,
  dayOfCell,
  hasOpenDay,
  priceOfCell,
} from '../../../valuation/reading/sale-line/price-and-day.ts';
import {
  readSaleLine,
  type SaleLine,
  type SaleLineHabits,
} from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { shownByLines } from '../../../valuation/reading/sale-line/shown-by-lines.ts';
import type * as inputs from '../inputs.ts';
import type { ReadSaleLines } from '../views.ts';
import { saidByLine } from './sale-line-corrections.ts';

/** A line as it was read, with its number in the text. */
export type ReadLine = SaleLine & { line: number };

/**
 * Reads a text of sales with the reference's and the owner's words; what dates show of their order, they
 * show for all lines.
 */
export const readText = async (
  { db, session }: { db: Kysely<Schema>; session: { today(): Promise<string> } },
  { text, dates, currency, words, lines: wanted, corrections }: typeof inputs.readSaleLines._output,
): Promise<{ lines: ReadLine[] } & Omit<ReadSaleLines, 'rows'>> => {
  const written = saleLinesIn(text);
  const lexicon = await loadSaleLexicon(db, words);
  const own = currency ?? (await readReportingCurrency(db));
  const today = await session.today();
  const said = saidByLine(corrections);
  const datesIn = written.map(({ cells, description }) => cells?.soldOn ?? description);
  const orders: DateOrders = dates ? { '/': dates, '.': dates, '-': dates } : dateOrdersOf(datesIn);
  const chosen = wanted && new Set(wanted);
  const settled = await settledNames(db);
  /** Refuses what the owner has settled to be no car, unless this line is said to be one. */
  const judged = (line: ReadLine): ReadLine =>
    line.castingId === null &&
    line.name !== null &&
    line.not !== 'lot' &&
    !said.get(line.line)?.oneCar &&
    settled.get(plain(line.name))?.means === 'not a car'
      ? { ...line, not: 'not a car' }
      : line;
  const read = (
    { line, text: whole, description, column, cells }: (typeof written)[number],
    shown: Partial<SaleLineHabits> = {},
  ): ReadLine => {
    const habits = {
      currency: own,
      orders,
      today,
      column,
      ...(said.has(line) && { said: said.get(line) }),
      ...shown,
    };
    if (!cells) return { ...readSaleLine(description, lexicon, habits), line };
    const found = readSaleLine(description, lexicon, {
      ...habits,
      ...(cells.soldOn !== null && { day: dayOfCell(cells.soldOn, orders, today) }),
      ...(cells.price !== null && { price: priceOfCell(cells.price, own) }),
      ...(cells.source && { source: cells.source }),
    });
    const at = description === '' ? -1 : whole.indexOf(description);
    const spans = found.spans.map(({ start, end, field }) => ({ start: start + at, end: end + at, field }));
    const unnamedCurrency =
      found.unnamedCurrency ||
      (found.price !== null && cells.price !== null && currencyOfAmount(cells.price, own) === 'none');
    return { ...found, line, text: whole, spans: at < 0 ? [] : spans, unnamedCurrency };
  };
  // What the lines show of each other needs all of them, whichever are asked for.
  const first = written.map(line => ({ line, found: read(line) }));
  const shown = shownByLines(
    first.map(({ found }) => found),
    await placesOfSales(db),
  );
  const found = first.flatMap(({ line, found }) =>
    chosen && !chosen.has(line.line) ? [] : [shown.concerns(found) ? read(line, shown) : found],
  );
  const openLines = datesIn.filter(day => hasOpenDay(day, orders));
  const lines = found.map(judged);
  const ordersRead = Object.entries(orders).map(
    ([sign, order]) =>
      `Dates with "${sign}" are read ${order === 'mdy' ? 'month' : 'day'} first${dates ? '' : ', as the other lines show'}.`,
  );
  const open = openLines.length;
  const asked =
    open === 0
      ? []
      : [`${open === 1 ? 'One date' : `${open} dates`} can be read day first or month first; say which.`];
  return {
    lines,
    notes: [...(dates ? [] : ordersRead), ...asked],
    dateOrders: orders,
    openDates: {
      lines: open,
      example: openLines[0]?.match(/\d{1,2}([./-])\d{1,2}\1(?:\d{4}|\d{2})/)?.[0] ?? null,
    },
    unnamedCurrency: { lines: lines.filter(line => line.unnamedCurrency).length, currency: own },
  };
};
