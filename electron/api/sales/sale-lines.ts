import type { Kysely } from 'kysely';
import type { SaleEntry } from '../../../db/records/sales/sales.ts';
import { insertSeenSales, type SeenSale, unrecordedSales } from '../../../db/records/sales/seen-sales.ts';
import { loadMatcher, type Matcher } from '../../../db/reference/match.ts';
import type { Schema } from '../../../db/schema.ts';
import { identityFields } from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { finishStates, type Grade, partNames } from '../../../valuation/words.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import type { Session } from '../session/session.ts';
import type { AddedSaleLines, ReadSaleLines, SaleLineRow } from '../views.ts';
import { type ReadLine, readText } from './read-lines.ts';

type Request = typeof inputs.readSaleLines._output;

const rowOf = (line: ReadLine, known: boolean, outcome?: SaleLineRow['outcome']): SaleLineRow => ({
  line: line.line,
  text: line.text,
  fields: line.fields,
  spans: line.spans,
  castingId: line.castingId,
  name: line.name,
  unread: line.unread,
  not: line.not,
  known,
  ...(outcome && { outcome }),
});

/**
 * Words about a finish that people mean differently: a record with one counts in no estimate
 * until it is settled.
 */
const aboutFinish = /paint|lackier|restor|restaur|custom|strip|touch|refinish|peint|verniciat/i;

const partsOf = (text = '') => partNames.filter(part => text.split(',').includes(part));

/** What was not understood, but for the name under which the sale waits. */
const withoutName = (unread: ReadLine['unread'], name: string | undefined) =>
  name === undefined
    ? unread
    : unread.flatMap(entry => {
        const left = entry.text.replace(name, '').trim();
        return /[\p{L}\p{N}]/u.test(left) ? [{ ...entry, text: left }] : [];
      });

/** A line as a sale record; null where it is no sale of one car. */
const seenSale = (line: ReadLine, match: Matcher): (SeenSale & { line: ReadLine }) | null => {
  const { fields, price, unread } = line;
  if (line.not || !price || !fields.sold_on) return null;
  const asWritten = Object.fromEntries(
    identityFields.flatMap(field => (fields[field] ? [[field, fields[field]]] : [])),
  );
  const matched = match(asWritten);
  const castingId = line.castingId ?? matched.castingId;
  // The likely name of a casting that is not known waits to be settled; one that is known was left
  // open for a reason.
  if (castingId === null && line.name && match({ casting: line.name }).castingId === null)
    asWritten.casting = line.name;
  const finish = finishStates.find(state => state === fields.finish_state) ?? null;
  const doubt = finish === null ? unread.find(({ text }) => aboutFinish.test(text)) : undefined;
  const sale: Omit<SaleEntry, 'id'> = {
    soldOn: fields.sold_on,
    price: price.minor,
    currency: price.currency,
    castingId,
    variationId: matched.castingId === castingId ? matched.variationId : null,
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
  return { sale, unread: withoutName(unread, asWritten.casting), line };
};

/** The lines that tell of a sale of one car, those of them that are not recorded yet, and all as rows. */
const lookedAt = async (context: { db: Kysely<Schema>; session: Session }, input: Request) => {
  const { lines, ...facts } = await readText(context, input);
  const match = await loadMatcher(context.db);
  const seen = lines.flatMap(line => seenSale(line, match) ?? []);
  const fresh = await unrecordedSales(context.db, seen);
  const isFresh = new Set(fresh.map(({ line }) => line));
  const isKnown = new Set(seen.flatMap(({ line }) => (isFresh.has(line) ? [] : [line])));
  return { lines, facts, fresh, isKnown };
};

const readLines = needsCollection
  .input(inputs.readSaleLines)
  .handler(async ({ context, input }): Promise<ReadSaleLines> => {
    const { lines, facts, isKnown } = await lookedAt(context, input);
    return { ...facts, rows: lines.map(line => rowOf(line, isKnown.has(line))) };
  });

/**
 * Records the lines that tell of a sale of one car, as one action; the others are left out, each
 * with its reason.
 */
const addLines = needsCollection
  .input(inputs.readSaleLines)
  .handler(async ({ context, input }): Promise<AddedSaleLines> => {
    const { lines: chosen, ...whole } = input;
    const { lines, facts, isKnown, fresh: found } = await lookedAt(context, whole);
    const wanted = chosen && new Set(chosen);
    const fresh = found.filter(({ line }) => !wanted || wanted.has(line.line));
    if (fresh.length > 0)
      await context.session.act(
        `Added ${fresh.length === 1 ? 'a sale record' : `${fresh.length} sale records`} from lines`,
        trx => insertSeenSales(trx, fresh),
      );
    const isAdded = new Set(fresh.map(({ line }) => line));
    const rows = lines.map(line =>
      rowOf(
        line,
        isKnown.has(line),
        isAdded.has(line) ? 'added' : isKnown.has(line) ? 'known already' : 'left out',
      ),
    );
    const count = (outcome: SaleLineRow['outcome']) => rows.filter(row => row.outcome === outcome).length;
    return { ...facts, rows, added: fresh.length, known: count('known already'), leftOut: count('left out') };
  });

export const saleLines = { readLines, addLines };
