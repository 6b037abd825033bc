import type { Kysely } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import type { FinishState, Grade, PartName } from '../../../valuation/words.ts';
import { partNames } from '../../../valuation/words.ts';
import { halfToGrade, heldOnce, readTexts, readWords } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** Of a sale record what a list of all is filtered, counted and sorted by. */
export interface BriefSale {
  readonly id: number;
  readonly soldOn: IsoDate;
  readonly price: Minor;
  readonly currency: Currency;
  readonly castingId: number | null;
  readonly variationId: number | null;
  /** What was written, where the reference does not know it. */
  readonly asWritten: Readonly<Record<string, string>>;
  readonly grade: Grade | null;
  readonly finishState: FinishState;
  readonly missingParts: readonly PartName[];
  readonly reproductionParts: readonly PartName[];
  readonly source: string;
  readonly reference: string;
  readonly excluded: boolean;
  readonly own: boolean;
  readonly isUnread: boolean;
}

const noTexts = {};
const noParts: PartName[] = [];
const partsOf = (json: string | null) => (json === null ? noParts : readWords(json, partNames));

/** So many are read at once, so that what is read of them is let go of before V8 takes it for something that stays. */
const readTogether = 1000;

/** What most records leave empty comes as nothing: a text takes longer to hand over than all numbers of a row. */
const rowsAfter = (db: Kysely<Schema>, id: number) =>
  db
    .selectFrom('sale_record')
    .select(['id', 'sold_on', 'price_minor', 'currency', 'casting_id', 'variation_id', 'grade_half'])
    .select(['finish_state', 'source', 'excluded', 'disposal_id'])
    .select(({ eb, fn, val }) => [
      fn<string | null>('nullif', ['as_written', val('{}')]).as('as_written'),
      fn<string | null>('nullif', ['missing_parts', val('[]')]).as('missing_parts'),
      fn<string | null>('nullif', ['reproduction_parts', val('[]')]).as('reproduction_parts'),
      fn<string | null>('nullif', ['reference', val('')]).as('reference'),
      eb('unread', '<>', '[]').as('is_unread'),
    ])
    .where('id', '>', id)
    .orderBy('id')
    .limit(readTogether)
    .execute();

/** Every sale record in brief, the newest first. */
export const briefSales = async (db: Kysely<Schema>): Promise<BriefSale[]> => {
  const one = heldOnce();
  const sales: BriefSale[] = [];
  for (let rows = await rowsAfter(db, 0); rows.length > 0; rows = await rowsAfter(db, rows.at(-1)!.id))
    for (const row of rows)
      sales.push({
        id: row.id,
        soldOn: one(row.sold_on),
        price: row.price_minor,
        currency: one(row.currency),
        castingId: row.casting_id,
        variationId: row.variation_id,
        asWritten: row.as_written === null ? noTexts : readTexts(row.as_written),
        grade: halfToGrade(row.grade_half),
        finishState: one(row.finish_state),
        missingParts: partsOf(row.missing_parts),
        reproductionParts: partsOf(row.reproduction_parts),
        source: one(row.source),
        reference: row.reference ?? '',
        excluded: row.excluded === 1,
        own: row.disposal_id !== null,
        isUnread: Boolean(row.is_unread),
      });
  // By days, of which there are far fewer than records.
  const byDay = Map.groupBy(sales.reverse(), ({ soldOn }) => soldOn);
  return [...byDay].sort(([a], [b]) => (a < b ? 1 : -1)).flatMap(([, ofDay]) => ofDay);
};
