import type { Collection } from '../collection.ts';
import { runBulk } from '../history/history.ts';
import { zipEntries, zipText } from './files/zip.ts';
import { ImportFileError, type ImportResult, runImport } from './index.ts';

/** What a market that was passed on brought: castings, releases and variations, and then sale records. */
export interface MarketResult {
  reference: ImportResult;
  sales: ImportResult;
}

export interface MarketRequest {
  collection: Collection;
  /** A ZIP file with `reference.csv` and `sales.csv`, as sharing writes it. */
  file: Blob;
  name: string;
  dryRun: boolean;
  /** ISO instant: of entering, and the latest day that a sale can have. */
  at: string;
  signal?: AbortSignal | undefined;
  onProgress?: ((done: number, total: number, stage: string) => void) | undefined;
}

const partOf = async (
  entries: Awaited<ReturnType<typeof zipEntries>>,
  name: string,
): Promise<File | null> => {
  const entry = entries.get(name);
  if (!entry) return null;
  const pieces: string[] = [];
  for await (const piece of zipText(entry)) pieces.push(piece);
  return new File(pieces, name);
};

/**
 * Takes in a market that somebody passed on, as one action: the reference first, so that the sale records
 * find their castings; what is known already is recognised, and the owner's own names stay. Throws
 * ImportFileError where the file is no such market.
 */
export const importMarket = async (request: MarketRequest): Promise<MarketResult> => {
  const { collection, file, name, dryRun, at, signal, onProgress } = request;
  const entries = await zipEntries(file).catch(() => {
    throw new ImportFileError(
      `${name} is not a shared market: it is cut short, damaged, or another kind of file.`,
    );
  });
  const [reference, sales] = [await partOf(entries, 'reference.csv'), await partOf(entries, 'sales.csv')];
  if (!reference || !sales)
    throw new ImportFileError(
      `${name} is not a shared market: it has no ${reference ? 'sales.csv' : 'reference.csv'}. "playworn share" writes such a file.`,
    );
  const common = { collection, at, signal, onProgress };
  const of = (as: 'reference' | 'sales', part: File) => ({
    ...common,
    file: part,
    name: part.name,
    options: { as, map: {}, decimal: {}, dateOrder: {}, dryRun, addReference: false },
  });
  if (dryRun)
    return {
      reference: await runImport(of('reference', reference)),
      sales: await runImport(of('sales', sales)),
    };
  return runBulk(collection, `Imported the market from ${name}`, at, async trx => ({
    reference: await runImport({ ...of('reference', reference), within: trx }),
    sales: await runImport({ ...of('sales', sales), within: trx }),
  }));
};
