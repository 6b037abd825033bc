import type { Transaction } from 'kysely';
import { partNames } from '../../../valuation/words.ts';
import type { Schema } from '../../schema.ts';
import { type SaleEntry, updateSale } from '../sales/sales.ts';
import type { HeardText } from '../unread.ts';
import { valueGiven } from './divide.ts';
import {
  finishGiven,
  gradeGiven,
  identityWithout,
  matched,
  type Naming,
  partsIn,
  textsAfter,
  textsBefore,
  withNote,
  withoutNote,
} from './texts.ts';

/** What a record says that was left out because its finish was not settled. */
export const finishNotSettled = 'Its finish is not settled: ';

/**
 * Gives a sale record what was settled of its texts, where its owner has not given that himself meanwhile.
 */
export const settleSale = async (
  trx: Transaction<Schema>,
  sale: SaleEntry,
  settled: readonly HeardText[],
  naming: Naming,
): Promise<void> => {
  const texts = textsAfter(sale.asWritten, settled);
  const after: SaleEntry = { ...sale, asWritten: texts };
  after.grade ??= gradeGiven(settled) ?? null;
  const finish = finishGiven(settled);
  if (finish && sale.finishState === 'original') after.finishState = finish;
  if (finish && sale.excludedWhy.startsWith(finishNotSettled))
    Object.assign(after, { excluded: false, excludedWhy: '' });
  for (const [field, own] of [
    ['missing_parts', 'missingParts'],
    ['reproduction_parts', 'reproductionParts'],
  ] as const) {
    const given = partsIn(valueGiven(settled, field));
    after[own] = partNames.filter(part => sale[own].includes(part) || given.includes(part));
  }
  after.source ||= valueGiven(settled, 'source') ?? valueGiven(settled, 'seller') ?? '';
  after.reference ||= valueGiven(settled, 'reference') ?? '';
  for (const { gave } of settled) after.notes = withNote(after.notes, gave.notes);
  if (JSON.stringify(texts) !== JSON.stringify(sale.asWritten) && sale.variationId === null) {
    const { castingId, variationId } = matched(naming, sale.castingId, texts);
    Object.assign(after, { castingId: castingId ?? sale.castingId, variationId });
  }
  await updateSale(trx, after);
};

/** Takes from a sale record what words gave it, where that still stands. */
export const unsettleSale = async (
  trx: Transaction<Schema>,
  sale: SaleEntry,
  heard: readonly HeardText[],
  naming: Naming,
): Promise<void> => {
  const texts = textsBefore(sale.asWritten, heard);
  const after: SaleEntry = { ...sale, asWritten: texts };
  if (sale.grade !== null && sale.grade === gradeGiven(heard)) after.grade = null;
  const finish = finishGiven(heard);
  if (finish && sale.finishState === finish) {
    after.finishState = 'original';
    const text = heard.find(({ gave }) => gave.finish_state !== undefined)?.text ?? '';
    if (!sale.excluded)
      Object.assign(after, { excluded: true, excludedWhy: `${finishNotSettled}"${text.slice(0, 100)}"` });
  }
  const without = (field: string) => {
    const given = partsIn(valueGiven(heard, field));
    return (part: (typeof partNames)[number]) => !given.includes(part);
  };
  after.missingParts = sale.missingParts.filter(without('missing_parts'));
  after.reproductionParts = sale.reproductionParts.filter(without('reproduction_parts'));
  for (const { gave } of heard) {
    if (gave.source === sale.source) after.source = '';
    if (gave.reference === sale.reference) after.reference = '';
    if (gave.notes !== undefined) after.notes = withoutNote(after.notes, gave.notes);
  }
  if (JSON.stringify(texts) !== JSON.stringify(sale.asWritten) && sale.disposalId === null) {
    const is = identityWithout(naming, sale, { before: sale.asWritten, after: texts });
    if (is) Object.assign(after, { castingId: is.castingId, variationId: is.variationId });
  }
  await updateSale(trx, after);
};
