import {
  meaningOf,
  pricedAt,
  type SaidOfLine,
  type SaleLineField,
} from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { currency as currencyInput, isoDate } from '../fields.ts';
import type * as inputs from '../inputs.ts';
import { refused } from '../session/errors.ts';

type Correction = (typeof inputs.readSaleLines._output)['corrections'][number];

const canonical = (field: SaleLineField, text: string): string | null => {
  switch (field) {
    case 'sold_on':
      return isoDate.safeParse(text).success ? text : null;
    case 'price':
      return pricedAt(text, 'BHD') ? text : null;
    case 'currency':
      return currencyInput.safeParse(text).success ? text : null;
    default:
      return meaningOf({ field, meaning: text });
  }
};

const nameOf = (field: SaleLineField): string =>
  field === 'sold_on' ? 'day of the sale' : field.replaceAll('_', ' ');

/**
 * What the owner says of each line, by its number; what its field's reader does not take is
 * refused with its line.
 */
export const saidByLine = (corrections: Correction[]): Map<number, SaidOfLine> =>
  new Map(
    corrections.map(({ line, fields, castingId, oneCar }) => {
      const said: SaidOfLine['fields'] = {};
      for (const [field, text] of Object.entries(fields) as [SaleLineField, string][]) {
        const value = text === '' ? '' : canonical(field, text);
        if (value === null)
          throw refused(`Line ${line}: "${text}" could not be read as the ${nameOf(field)}.`);
        said[field] = value;
      }
      return [line, { fields: said, castingId, oneCar }];
    }),
  );
