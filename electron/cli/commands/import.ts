import { mkdtempSync, rmSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, extname, join, resolve } from 'node:path';
import { type LedgerKind, ledgerKinds } from '../../../db/import/ledgers/columns.ts';
import type { Encoding, LotChoice } from '../../../db/import/types.ts';
import { collectionExists } from '../../../db/open-collection.ts';
import type { DateOrder } from '../../../valuation/reading/date.ts';
import { readMoney } from '../../../valuation/reading/money.ts';
import { counted } from '../../../valuation/wording/reader.ts';
import type { ImportKind, ImportResult } from '../../api/views.ts';
import { type Api, type CommandContext, withCollection } from '../collection.ts';
import { beforeFounding } from '../founding.ts';
import { followed } from '../progress-bar.ts';
import { endRefused, print, Refused, say } from '../terminal.ts';
import { wordsCsv, wordsIn } from '../words-file.ts';
import { fileAt } from './file-at.ts';
import { importMarket } from './import-market.ts';

export interface ImportOptions {
  as: ImportKind;
  collection: string;
  map: Record<string, string | null>;
  dryRun?: boolean;
  addReference?: boolean;
  price?: string;
  currency?: string;
  name?: string;
  sheet?: string;
  headingLine?: number;
  lots?: LotChoice;
  encoding?: Encoding;
  dates?: DateOrder;
  decimal?: 'point' | 'comma';
  soldOn?: string;
  source?: string;
  words?: string;
  rows?: boolean;
  notUnderstood?: string;
  json?: boolean;
}

const priceIn = (text: string, currency: string): number => {
  const price = readMoney(text, currency);
  if (!price.ok) throw new Refused(`--price: ${price.reason}.`);
  return price.value;
};

const lotOf = (path: string, { as, name, price, currency }: ImportOptions, reporting: string) => {
  if (as !== 'lot') return undefined;
  const paid = currency ?? reporting;
  return {
    name: name ?? basename(path, extname(path)),
    currency: paid,
    costs: price === undefined ? [] : [{ kind: 'price' as const, minor: priceIn(price, paid) }],
  };
};

const run = async ({ api, signal }: CommandContext, path: string, options: ImportOptions) => {
  const { reportingCurrency } = await api.collection.summary();
  const {
    as,
    map,
    sheet,
    headingLine,
    lots,
    currency,
    dryRun,
    addReference,
    encoding,
    dates,
    decimal,
    soldOn,
    source,
    rows,
  } = options;
  const words = options.words === undefined ? [] : await wordsIn(options.words);
  const work = await api.imports.run(
    {
      file: await fileAt(path),
      as,
      map,
      sheet,
      headingLine,
      lots,
      encoding,
      ...(dates && { dateOrder: { '*': dates } }),
      ...(decimal && { decimal: { '*': decimal === 'comma' ? (',' as const) : ('.' as const) } }),
      currency,
      ofAll: { soldOn, source },
      dryRun,
      addReference,
      words,
      rows,
      lot: lotOf(path, options, reportingCurrency),
    },
    { signal },
  );
  return followed<ImportResult>(work);
};

const makeMissing = async (api: Api, dir: string, currency = 'USD'): Promise<void> => {
  await api.collection.create({ dir, reportingCurrency: currency });
  say(`Made a collection in ${dir}, reporting in ${currency}.`);
};

const tookNothing = ({ accepted, duplicates }: ImportResult): boolean => accepted + duplicates === 0;

/** Into a collection made for it, which is taken away again where nothing was taken in. */
const runFounding = async (path: string, options: ImportOptions): Promise<ImportResult> => {
  const dir = resolve(options.collection);
  const takeBack = beforeFounding(dir);
  // What another program has made there meanwhile is not ours to take away.
  let isEmptyAndOurs = false;
  try {
    return await withCollection({ collection: dir, mayBeMissing: true }, async context => {
      await makeMissing(context.api, dir, options.currency);
      isEmptyAndOurs = true;
      const result = await run(context, path, options);
      isEmptyAndOurs = tookNothing(result);
      return result;
    });
  } finally {
    if (isEmptyAndOurs) {
      takeBack();
      say(`Nothing was imported, so the empty collection in ${dir} was removed again.`);
    }
  }
};

/** Against an empty collection of its own where there is none yet, since trying must leave nothing behind. */
const tryWithoutCollection = async (path: string, options: ImportOptions): Promise<ImportResult> => {
  const aside = mkdtempSync(join(tmpdir(), 'playworn-'));
  say(`There is no collection in ${resolve(options.collection)} yet; tried against an empty one.`);
  try {
    return await withCollection({ collection: aside, mayBeMissing: true }, async context => {
      await context.api.collection.create({ dir: aside, reportingCurrency: options.currency ?? 'USD' });
      return run(context, path, options);
    });
  } finally {
    rmSync(aside, { recursive: true, force: true });
  }
};

/** As a text that is not understood stands in the file, and what it may mean. */
const asked = ({ column, text, field, meaning, count }: ImportResult['notUnderstood'][number]): string =>
  `  ${column}: ${text === '*' ? 'the scale of its figures' : `"${text}"`} (${count})${meaning ? `, perhaps ${field.replaceAll('_', ' ')} ${meaning}` : ''}`;

const mostAsked = 40;

const cellsLine = ({ understood, partly, unknown, idle }: ImportResult['cells']): string =>
  `${understood} of ${understood + partly + unknown} cells understood` +
  (partly > 0 ? `, ${partly} in part` : '') +
  (idle > 0 ? `; ${idle} in columns that are not read` : '');

type Tally = Pick<ImportResult, 'accepted' | 'duplicates' | 'rejected'>;

const tallyLine = ({ accepted, duplicates, rejected }: Tally, dryRun = false): string =>
  `${counted(accepted, 'row')} ${dryRun ? 'would be imported' : 'imported'}, ${rejected.length} rejected, ${counted(duplicates, 'duplicate')}`;

const rejectedLine = ({ line, column, reason }: ImportResult['rejected'][number]): string =>
  `Line ${line}${column ? `, ${column}` : ''}: ${reason}`;

const lines = (result: ImportResult, dryRun: boolean | undefined): string[] => [
  tallyLine(result, dryRun) +
    (result.unidentified > 0 ? `; ${result.unidentified} not identified, their text is saved` : ''),
  ...(result.lots ?? []).map(({ name, cars }) => `Lot: ${name} (${cars === 1 ? 'one car' : `${cars} cars`})`),
  cellsLine(result.cells),
  ...result.notes,
  ...(result.notUnderstood.length > 0
    ? [
        `${counted(result.notUnderstood.length, 'text is', 'texts are')} not understood, and saved as written. Say what ${result.notUnderstood.length === 1 ? 'it means' : 'they mean'} with --words:`,
        ...result.notUnderstood.slice(0, mostAsked).map(asked),
      ]
    : []),
  ...result.rejected.map(rejectedLine),
];

/**
 * `playworn import`: takes a spreadsheet in, or a market that was passed on, making the collection
 * where there is none.
 */
export const importFile = (
  file: string,
  options: Omit<ImportOptions, 'as'> & { as: ImportKind | LedgerKind | 'market' },
): Promise<void> => {
  const { as } = options;
  if (as === 'market') return importMarket(file, options);
  const ledger = ledgerKinds.find(kind => kind === as);
  return ledger
    ? importBooks(file, { ...options, as: ledger })
    : importList(file, { ...options, as: as as ImportKind });
};

/** Into a collection that is there: the rows of such a list are about its cars. */
const importBooks = async (
  file: string,
  { as, collection, dryRun = false, json = false }: Omit<ImportOptions, 'as'> & { as: LedgerKind },
): Promise<void> => {
  const given = await fileAt(resolve(file));
  const result = await withCollection({ collection }, async ({ api }) =>
    followed(await api.imports.ledger({ file: given, as, dryRun })),
  );
  print(json, result, ({ accepted, duplicates, rejected, notes }) => [
    tallyLine({ accepted, duplicates, rejected }, dryRun),
    ...notes,
    ...rejected.map(rejectedLine),
  ]);
  if (result.accepted + result.duplicates === 0 && result.rejected.length > 0)
    endRefused('No row could be imported.');
};

const importList = async (file: string, options: ImportOptions): Promise<void> => {
  const path = resolve(file);
  await fileAt(path);
  const { collection, dryRun, json } = options;
  const exists = collectionExists(resolve(collection));
  const result = exists
    ? await withCollection({ collection }, context => run(context, path, options))
    : await (dryRun ? tryWithoutCollection : runFounding)(path, options);
  const { notUnderstood, ...rest } = result;
  if (options.notUnderstood !== undefined) await writeFile(options.notUnderstood, wordsCsv(notUnderstood));
  if (json) print(true, { ...rest, not_understood: notUnderstood }, () => []);
  else print(false, result, shown => lines(shown, dryRun));
  if (tookNothing(result) && result.rejected.length > 0) endRefused('No row could be imported.');
};
