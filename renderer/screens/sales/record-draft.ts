import type { SaleRow } from '../../../electron/api/views.ts';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import { readGrade } from '../../components/condition/condition-draft.ts';

/** What the form of a new sale record holds. */
export interface RecordDraft
  extends Pick<
    SaleRow,
    | ('currency' | 'castingId' | 'variationId' | 'finishState' | 'missingParts' | 'reproductionParts')
    | ('source' | 'reference' | 'reliabilityPercent' | 'notes')
  > {
  soldOn: IsoDate | null;
  price: Minor | null;
  casting: string;
  variation: string;
  /** As typed. */
  grade: string;
}

export const emptyRecord = (currency: Currency, soldOn: IsoDate | null): RecordDraft => ({
  soldOn,
  price: null,
  currency,
  castingId: null,
  casting: '',
  variationId: null,
  variation: '',
  grade: '',
  finishState: 'original',
  missingParts: [],
  reproductionParts: [],
  source: '',
  reference: '',
  reliabilityPercent: null,
  notes: '',
});

/** A fresh draft that keeps what the next record of the same sale shares: its day, currency and source. */
export const nextRecord = ({ currency, soldOn, source }: RecordDraft): RecordDraft => ({
  ...emptyRecord(currency, soldOn),
  source,
});

/** What still lacks before the record can be kept, as a sentence; null when nothing does. */
export const whatIsMissing = (draft: RecordDraft): string | null => {
  if (draft.castingId === null) return 'Choose the casting that was sold.';
  if (draft.soldOn === null) return 'Enter the date of the sale.';
  if (draft.price === null || draft.price <= 0) return 'Enter the sale price.';
  if (readGrade(draft.grade) === undefined) return 'A grade runs from C1 to C10 in half points.';
  return null;
};

/** The draft as the service takes it. Throws RangeError where `whatIsMissing` has something to say. */
export const recordInput = (draft: RecordDraft) => {
  const { castingId, soldOn, price, casting: _casting, variation: _variation, grade, ...rest } = draft;
  if (castingId === null || soldOn === null || price === null)
    throw new RangeError('A sale record needs its casting, its day and its price');
  return { ...rest, castingId, soldOn, price, grade: readGrade(grade) ?? null };
};
