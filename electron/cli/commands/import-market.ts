import { resolve } from 'node:path';
import type { ImportResult } from '../../../db/import/index.ts';
import type { MarketResult } from '../../../db/import/market.ts';
import { collectionExists } from '../../../db/open-collection.ts';
import { type CommandContext, withCollection } from '../collection.ts';
import { beforeFounding } from '../founding.ts';
import { followed } from '../progress-bar.ts';
import { endRefused, print, Refused, say } from '../terminal.ts';
import { fileAt } from './file-at.ts';

export interface MarketOptions {
  collection: string;
  currency?: string;
  dryRun?: boolean;
  json?: boolean;
}

const counts = ({ accepted, duplicates, rejected, notes }: ImportResult) => ({
  accepted,
  duplicates,
  rejected,
  notes,
});

const line = (what: string, { accepted, duplicates, rejected }: ImportResult, dryRun?: boolean): string =>
  `${what}: ${accepted} ${dryRun ? 'would be imported' : 'imported'}, ${duplicates} known already, ${rejected.length} rejected`;

const tookNothing = ({ reference, sales }: MarketResult): boolean =>
  reference.accepted + reference.duplicates + sales.accepted + sales.duplicates === 0;

/**
 * `playworn import FILE.zip --as market`: sale records and reference that somebody passed on, as one action.
 */
export const importMarket = async (file: string, options: MarketOptions): Promise<void> => {
  const path = resolve(file);
  const given = await fileAt(path);
  const { collection, dryRun, json } = options;
  const take = ({ api, signal }: CommandContext) =>
    api.imports.market({ file: given, dryRun }, { signal }).then(work => followed<MarketResult>(work));
  const dir = resolve(collection);
  const found = async (): Promise<MarketResult> => {
    const takeBack = beforeFounding(dir);
    let isTaken = false;
    try {
      return await withCollection({ collection, mayBeMissing: true }, async context => {
        await context.api.collection.create({ dir, reportingCurrency: options.currency ?? 'USD' });
        const taken = await take(context);
        isTaken = !tookNothing(taken);
        return taken;
      });
    } finally {
      if (isTaken) say(`Made a collection in ${dir}, reporting in ${options.currency ?? 'USD'}.`);
      else takeBack();
    }
  };
  if (dryRun && !collectionExists(dir))
    throw new Refused(`There is no collection in ${dir} to try this market against.`);
  const taken = collectionExists(dir) ? await withCollection({ collection }, take) : await found();
  const { reference, sales } = taken;
  if (json) print(true, { reference: counts(reference), sales: counts(sales) }, () => []);
  else
    print(false, taken, shown => [
      line('Reference', shown.reference, dryRun),
      line('Sale records', shown.sales, dryRun),
      ...[...shown.reference.rejected, ...shown.sales.rejected].map(
        ({ line: at, column, reason }) => `line ${at}${column ? `, ${column}` : ''}: ${reason}`,
      ),
    ]);
  if (tookNothing(taken)) endRefused('Nothing could be imported.');
};
