import { withCollection } from '../collection.ts';
import { followed } from '../progress-bar.ts';
import { print } from '../terminal.ts';

/** `playworn demo`: makes the demo collection. */
export const demo = ({ collection, json }: { collection: string; json?: boolean }): Promise<void> =>
  withCollection({ collection, demo: true, mayBeMissing: true }, async ({ api, signal }) => {
    await followed(await api.collection.openDemo(undefined, { signal }));
    const { dir, counts, today, reportingCurrency } = await api.collection.summary();
    print(json, { dir, on: today, currency: reportingCurrency, ...counts }, made => [
      `The demo collection is in ${made.dir}`,
      `${made.cars} cars in ${made.lots} lots, ${made.castings} castings, ${made.variations} variations, ` +
        `${made.saleRecords} sale records, ${made.photographs} photographs`,
    ]);
  });
