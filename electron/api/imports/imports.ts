import type { Kysely } from 'kysely';
import { z } from 'zod';
import type { ImportResult } from '../../../db/import/index.ts';
import { ledgerColumns, ledgerKinds } from '../../../db/import/ledgers/columns.ts';
import type { LedgerResult } from '../../../db/import/ledgers.ts';
import type { MarketResult } from '../../../db/import/market.ts';
import { findLotNamed, lotCosts } from '../../../db/records/lots/lots.ts';
import { coloursOnly } from '../../../db/reference/colour-names.ts';
import type { Schema } from '../../../db/schema.ts';
import { marketBefore, marketToday } from '../figures/market.ts';
import { reshareLot } from '../figures/shares.ts';
import * as inputs from '../inputs.ts';
import { followOwnSales } from '../reference/own-sales.ts';
import { needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import { memo } from '../session/memo.ts';
import { streamed } from '../session/progress.ts';
import type { ImportPreview } from '../views.ts';

/** Loaded at the first import: the reader of spreadsheets takes memory that most sessions need not give. */
const engine = () => import('../../../db/import/index.ts');

/** The reference's colours, by which columns without headings are known: read once for all the files of a session. */
const colours = memo(({ db }) => coloursOnly(db));

/** A file that cannot be read as a table is the caller's to put right, not a fault of ours. */
const explained = async <T>(work: Promise<T>): Promise<T> => {
  try {
    return await work;
  } catch (error) {
    const { ImportFileError } = await engine();
    throw error instanceof ImportFileError ? refused(error.message, 'file') : error;
  }
};

/** True where the lot that the cars go into cost anything, as far as is known. */
const hasPrice = async (
  db: Kysely<Schema>,
  { lotId, lot }: { lotId?: number | undefined; lot?: { name: string; costs: unknown[] } | undefined },
): Promise<boolean> => {
  const known = lotId ?? (lot && (await findLotNamed(db, lot.name))?.id);
  return known === undefined ? !!lot?.costs.length : !!(await lotCosts(db, known)).get(known)?.length;
};

const preview = needsCollection
  .input(inputs.previewImport)
  .handler(async ({ context, input, signal }): Promise<ImportPreview> => {
    const { file, ...options } = input;
    const { previewImport } = await engine();
    return explained(
      previewImport({
        collection: context.collection,
        file,
        name: file.name,
        options: { ...options, dryRun: true },
        at: context.session.at(),
        colours: await colours(context.session),
        signal,
      }),
    );
  });

/** Takes a file in as one action; a lot's price is shared out over its cars as part of it. */
const run = needsCollection.input(inputs.runImport).handler(({ context, input, signal }) => {
  const { session, collection } = context;
  const { file, ...options } = input;
  return streamed<ImportResult>(async (report, stop) => {
    // Only a lot's price is shared out by worth; fitting the market of many sales for nothing
    // would take minutes.
    const shares = !options.dryRun && options.as === 'lot' && (await hasPrice(collection.read.db, options));
    const fitted = shares ? await marketToday(session) : null;
    const market = marketBefore(session);
    const { runImport } = await engine();
    const result = await explained(
      runImport({
        collection,
        file,
        name: file.name,
        options,
        at: session.at(),
        colours: await colours(session),
        signal: stop,
        onProgress: report,
        afterwards: async (trx, { lotId, toShare, soldCarIds }) => {
          if (lotId !== null && fitted) await reshareLot(trx, fitted, lotId);
          for (const id of toShare) await reshareLot(trx, fitted ?? (await market()), id);
          await followOwnSales(trx, soldCarIds);
        },
      }),
    );
    if (!options.dryRun) await session.changed();
    return result;
  }, signal);
});

/** Takes in a market that somebody passed on, as one action. */
const market = needsCollection
  .input(z.object({ file: z.file().max(2_000_000_000), dryRun: z.boolean().default(false) }))
  .handler(({ context: { session, collection }, input: { file, dryRun }, signal }) =>
    streamed<MarketResult>(async (onProgress, stop) => {
      const { importMarket } = await import('../../../db/import/market.ts');
      const at = session.at();
      const result = await explained(
        importMarket({ collection, file, name: file.name, dryRun, at, signal: stop, onProgress }),
      );
      if (!dryRun) await session.changed();
      return result;
    }, signal),
  );

/** Takes in a list of lots, expenses, disposals, decisions or jobs as it goes out, as one action. */
const ledger = needsCollection
  .input(inputs.importLedger)
  .handler(({ context: { session, collection }, input: { file, as, dryRun }, signal }) =>
    streamed<LedgerResult>(async (onProgress, stop) => {
      const { importLedger } = await import('../../../db/import/ledgers.ts');
      const at = session.at();
      const { name } = file;
      const afterwards = followOwnSales;
      const result = await explained(
        importLedger({ collection, file, name, as, dryRun, at, afterwards, signal: stop, onProgress }),
      );
      if (!dryRun) await session.changed();
      return result;
    }, signal),
  );

/** The lists of the books with their columns, for a screen that offers them. */
const ledgerLists = needsCollection.handler(async () =>
  ledgerKinds.map(as => ({
    as,
    columns: ledgerColumns[as].map(({ name, help, required = false }) => ({ name, help, required })),
  })),
);

export const imports = { preview, run, market, ledger, ledgerLists };
