import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Collection } from '../../../db/collection.ts';
import { type ImportResult, previewImport, type RunOptions, runImport } from '../../../db/import/index.ts';
import { at } from '../../helpers/collections.ts';

export const fixture = (name: string): File =>
  new File(
    [new Uint8Array(readFileSync(fileURLToPath(new URL(`../../fixtures/messy/${name}`, import.meta.url))))],
    name,
  );

export const fileOf = (content: string | Uint8Array<ArrayBuffer>, name = 'list.csv'): File =>
  new File([content], name);

export const optionsOf = (options: Partial<RunOptions> & Pick<RunOptions, 'as'>): RunOptions => ({
  map: {},
  decimal: {},
  dateOrder: {},
  dryRun: false,
  addReference: false,
  ...options,
});

export const newLot = (name: string): NonNullable<RunOptions['lot']> => ({
  name,
  boughtOn: '2026-03-14',
  seller: '',
  currency: 'USD',
  costs: [],
  notes: '',
});

type Options = Partial<RunOptions> & Pick<RunOptions, 'as'>;

export const lookAt = (collection: Collection, file: File, options: Options) =>
  previewImport({ collection, file, name: file.name, options: optionsOf(options), at });

export const take = (
  collection: Collection,
  file: File,
  options: Options,
  signal?: AbortSignal,
): Promise<ImportResult> =>
  runImport({ collection, file, name: file.name, options: optionsOf(options), at, signal });

/** Line, column and the beginning of the reason of each rejected row. */
export const rejections = ({ rejected }: ImportResult): [number, string | null, string][] =>
  rejected.map(({ line, column, reason }) => [line, column, reason]);

export const countOf = (collection: Collection, table: string): number =>
  Number(collection.write.sqlite.prepare(`SELECT count(*) FROM "${table}"`).pluck().get());
