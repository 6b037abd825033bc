import type { Mapping } from './mapping.ts';
import { recogniseHeading } from './recognise-headings.ts';
import type { ImportOptions } from './types.ts';

/** What the headings say of the whole file: that it is of another kind than it is imported as. */
export const kindWarnings = ({ columns, places }: Mapping, { as }: ImportOptions): string[] => {
  if (as === 'sales') return [];
  const idle = columns.filter(column => column.ours === null);
  const gives = (ours: string) =>
    idle.find(({ heading }) => recogniseHeading('sales', heading)?.ours === ours);
  const at = (ours: string) => columns[places.get(ours) ?? -1];
  // Who sold a car knows what it brought: a day of sale beside one price is rather a sale that was seen.
  const isSales = as === 'lot' && places.has('sold_on') && !places.has('sold_for');
  const [day, price] = isSales ? [at('sold_on'), at('price_paid')] : [gives('sold_on'), gives('price')];
  return day && price
    ? [
        `"${day.heading}" and "${price.heading}" look like the day and the price of sales: if this is a list of sales that you saw, import it as sales.`,
      ]
    : [];
};

/** Their columns that hold something and are not read, by name. */
export const unreadColumns = ({ columns }: Mapping): string[] => {
  const idle = columns.filter(column => column.ours === null && column.samples.length > 0);
  return idle.length === 0
    ? []
    : [
        `Not read: ${idle.map(({ heading }) => `"${heading}"`).join(', ')}. Say what a column means, or leave it.`,
      ];
};
