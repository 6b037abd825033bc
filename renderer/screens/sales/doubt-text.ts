import type { SaleRow } from '../../../electron/api/views.ts';
import {
  asideText,
  departureText,
  otherVariationText,
} from '../../../valuation/wording/values/record-text.ts';
import { readerLocale } from '../../components/format.ts';

/**
 * Why a record is not used, how far it departs from the others, or that it may be of another variation,
 * without a full stop; undefined where none of these is so.
 */
export const doubtText = ({ doubt }: Pick<SaleRow, 'doubt'>): string | undefined => {
  if (doubt === null) return undefined;
  if ('cause' in doubt) return asideText(doubt.cause, readerLocale());
  return 'departure' in doubt
    ? departureText(doubt.departure, readerLocale())
    : otherVariationText(doubt.otherVariation, readerLocale());
};
