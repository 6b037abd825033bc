import { saleLinesIn } from '../../../db/import/sale-lines.ts';
import type { SaleEntry } from '../../../db/records/sales.ts';
import { insertSeenSales, type SeenSale, unrecordedSales } from '../../../db/records/seen-sales.ts';
import { readReportingCurrency } from '../../../db/records/settings.ts';
import { loadMatcher, type Matcher } from '../../../db/reference/match.ts';
import { loadSaleLexicon } from '../../../db/reference/sale-lexicon.ts';
import {
  type DateOrders,
  dateOrdersOf,
  dayOfCell,
  hasOpenDay,
  priceOfCell,
} from '../../../valuation/reading/sale-line/price-and-day.ts';
import { readSaleLine, type SaleLine } from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { finishStates, type Grade, partNames } from '../../../valuation/words.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import type { AddedSaleLines, ReadSaleLines, SaleLineRow } from '../views.ts';

type Request = typeof inputs.readSaleLines._output;
type Read = SaleLine & { line: number };

const read = async (
  { db, session }: { db: Parameters<typeof loadSaleLexicon>[0]; session: { today(): Promise<string> } },
  { text, dates, currency, words }: Request,
): Promise<{ lines: Read[]; notes: string[] }> => {
  const written = saleLinesIn(text);
  const lexicon = await loadSaleLexicon(db, words);
  const own = currency ?? (await readReportingCurrency(db));
  const today = await session.today();
  const datesIn = written.map(({ cells, description }) => cells?.soldOn ?? description);
  const orders: DateOrders = dates ? { '/': dates, '.': dates, '-': dates } : dateOrdersOf(datesIn);
  const lines = written.map(({ line, text: whole, description, column, cells }): Read => {
    const habits = { currency: own, orders, today, column };
    if (!cells) return { ...readSaleLine(description, lexicon, habits), line };
    const found = readSaleLine(description, lexicon, {
      ...habits,
      ...(cells.soldOn !== null && { day: dayOfCell(cells.soldOn, orders, today) }),
      ...(cells.price !== null && { price: priceOfCell(cells.price, own) }),
      ...(cells.source && { source: cells.source }),
    });
    const at = description === '' ? -1 : whole.indexOf(description);
    const spans = found.spans.map(({ start, end, field }) => ({ start: start + at, end: end + at, field }));
    return { ...found, line, text: whole, spans: at < 0 ? [] : spans };
  });
  const open = datesIn.filter(day => hasOpenDay(day, orders)).length;
  const said = Object.entries(orders).map(
    ([sign, order]) =>
      `Dates with "${sign}" are read ${order === 'mdy' ? 'month' : 'day'} first${dates ? '' : ', as other lines show'}.`,
  );
  const asked =
    open === 0
      ? []
      : [`${open === 1 ? 'One date' : `${open} dates`} can be read day first or month first; say which.`];
  return { lines, notes: [...(dates ? [] : said), ...asked] };
};

const rowOf = (line: Read, outcome?: SaleLineRow['outcome']): SaleLineRow => ({
  line: line.line,
  text: line.text,
  fields: line.fields,
  spans: line.spans,
  unread: line.unread,
  not: line.not,
  ...(outcome && { outcome }),
});

const readLines = needsCollection
  .input(inputs.readSaleLines)
  .handler(async ({ context, input }): Promise<ReadSaleLines> => {
    const { lines, notes } = await read(context, input);
    return { rows: lines.map(line => rowOf(line)), notes };
  });

/** Words about a finish that people mean differently: a record with one counts in no estimate until it is settled. */
const aboutFinish = /paint|lackier|restor|restaur|custom|strip|touch|refinish|peint|verniciat/i;

const identityFields = [
  'casting',
  'release_name',
  'release_year',
  'colour',
  'base_paint',
  'rear_end',
  'roof',
  'interior',
  'glazing',
  'wheels',
  'accessory',
  'country',
] as const;

const partsOf = (text = '') => partNames.filter(part => text.split(',').includes(part));

/** A line as a sale record; null where it is no sale of one car. */
const seenSale = (line: Read, match: Matcher): (SeenSale & { line: Read }) | null => {
  const { fields, price, unread } = line;
  if (line.not || !price || !fields.sold_on) return null;
  const asWritten = Object.fromEntries(
    identityFields.flatMap(field => (fields[field] ? [[field, fields[field]]] : [])),
  );
  const matched = match(asWritten);
  const finish = finishStates.find(state => state === fields.finish_state) ?? null;
  const doubt = finish === null ? unread.find(({ text }) => aboutFinish.test(text)) : undefined;
  const sale: Omit<SaleEntry, 'id'> = {
    soldOn: fields.sold_on,
    price: price.minor,
    currency: price.currency,
    castingId: matched.castingId ?? line.castingId,
    variationId: matched.variationId,
    asWritten,
    grade: fields.grade === undefined ? null : (Number(fields.grade) as Grade),
    finishState: finish ?? 'original',
    missingParts: partsOf(fields.missing_parts),
    reproductionParts: partsOf(fields.reproduction_parts),
    source: fields.source ?? '',
    reference: '',
    reliabilityPercent: null,
    excluded: doubt !== undefined,
    excludedWhy: doubt ? `Its finish is not settled: "${doubt.text}"` : '',
    disposalId: null,
    notes: line.text,
  };
  return { sale, unread, line };
};

/** Records the lines that tell of a sale of one car, as one action; the others are left out, each with its reason. */
const addLines = needsCollection
  .input(inputs.addSaleLines)
  .handler(async ({ context, input }): Promise<AddedSaleLines> => {
    const { lines, notes } = await read(context, input);
    const match = await loadMatcher(context.db);
    const chosen = input.lines && new Set(input.lines);
    const seen = lines.flatMap(line =>
      chosen && !chosen.has(line.line) ? [] : (seenSale(line, match) ?? []),
    );
    const fresh = await unrecordedSales(context.db, seen);
    if (fresh.length > 0)
      await context.session.act(
        `Added ${fresh.length === 1 ? 'a sale record' : `${fresh.length} sale records`} from lines`,
        trx => insertSeenSales(trx, fresh),
      );
    const added = new Set(fresh.map(({ line }) => line));
    const recognised = new Set(seen.map(({ line }) => line));
    const rows = lines.map(line =>
      rowOf(line, added.has(line) ? 'added' : recognised.has(line) ? 'known already' : 'left out'),
    );
    const count = (outcome: SaleLineRow['outcome']) => rows.filter(row => row.outcome === outcome).length;
    return { rows, notes, added: fresh.length, known: count('known already'), leftOut: count('left out') };
  });

export const saleLines = { readLines, addLines };
