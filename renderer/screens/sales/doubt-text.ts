import type { SaleRow } from '../../../electron/api/views.ts';
import { asideText, departureText } from '../../../valuation/wording/values/record-text.ts';
import { readerLocale } from '../../components/format.ts';

/**
 * Why a record is not used, or how far it departs from the others, without a full stop; undefined
 * where neither is so.
 */
export const doubtText = ({ doubt }: Pick<SaleRow, 'doubt'>): string | undefined => {
  if (doubt === null) return undefined;
  return 'cause' in doubt
    ? asideText(doubt.cause, readerLocale())
    : departureText(doubt.departure, readerLocale());
};
