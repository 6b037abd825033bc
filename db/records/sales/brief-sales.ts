import type { Kysely } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import type { FinishState, Grade, PartName } from '../../../valuation/words.ts';
import { partNames } from '../../../valuation/words.ts';
import { halfToGrade, readTexts, readWords } from '../../codec.ts';
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
const parts = (json: string) => (json === '[]' ? noParts : readWords(json, partNames));

/** Every sale record in brief, the newest first. */
export const briefSales = async (db: Kysely<Schema>): Promise<BriefSale[]> => {
  const rows = await db
    .selectFrom('sale_record')
    .select([
      'id',
      'sold_on',
      'price_minor',
      'currency',
      'casting_id',
      'variation_id',
      'as_written',
      'grade_half',
      'finish_state',
      'missing_parts',
      'reproduction_parts',
      'source',
      'reference',
      'excluded',
      'disposal_id',
      'unread',
    ])
    .orderBy('sold_on', 'desc')
    .orderBy('id', 'desc')
    .execute();
  // One text for all rows that say the same, so that many rows take little room.
  const texts = new Map<string, string>();
  const one = <Text extends string>(text: Text): Text => {
    const known = texts.get(text);
    if (known !== undefined) return known as Text;
    texts.set(text, text);
    return text;
  };
  return rows.map(row => ({
    id: row.id,
    soldOn: one(row.sold_on),
    price: row.price_minor,
    currency: one(row.currency),
    castingId: row.casting_id,
    variationId: row.variation_id,
    asWritten: row.as_written === '{}' ? noTexts : readTexts(row.as_written),
    grade: halfToGrade(row.grade_half),
    finishState: one(row.finish_state),
    missingParts: parts(row.missing_parts),
    reproductionParts: parts(row.reproduction_parts),
    source: one(row.source),
    reference: row.reference,
    excluded: row.excluded === 1,
    own: row.disposal_id !== null,
    isUnread: row.unread !== '[]',
  }));
};
