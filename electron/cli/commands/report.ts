import { extname } from 'node:path';
import type { PaperSize, PdfStandard } from '../../../reports/types.ts';
import { decimalToMinor } from '../../../valuation/money.ts';
import type { ValueBasis } from '../../../valuation/words.ts';
import type { PaperKind } from '../../api/inputs.ts';
import type { ReportResult } from '../../api/views.ts';
import { type Api, withCollection } from '../collection.ts';
import { carNumbered, lotNamed } from '../named.ts';
import { followed } from '../progress-bar.ts';
import { print, Refused, say } from '../terminal.ts';
import { outPath, writeWhole } from '../write-out.ts';

export interface ReportOptions {
  collection: string;
  out: string;
  kind: 'collection' | 'lot' | PaperKind;
  car?: string;
  lot?: string;
  on?: string;
  from?: string;
  to?: string;
  title?: string;
  basis?: ValueBasis;
  paper?: PaperSize;
  photographs: boolean;
  prepared?: boolean;
  changes?: boolean;
  margin?: number;
  sure?: number;
  premium?: number;
  tax?: number;
  delivery?: string;
  keep?: boolean;
  standard?: PdfStandard;
  definition?: string;
  values: boolean;
  places: boolean;
  json?: boolean;
}

type Made = ReportResult;

const formats = { '.pdf': 'pdf', '.csv': 'csv', '.xlsx': 'xlsx', '.jsonl': 'jsonl' } as const;

const formatOf = (out: string) => formats[extname(out).toLowerCase() as keyof typeof formats];

const collectionReport = async (api: Api, options: ReportOptions, signal: AbortSignal): Promise<Made> => {
  const { on, title, basis, paper, lot, standard } = options;
  const format = formatOf(options.out);
  if (format === 'jsonl')
    throw new Refused('A collection report is a PDF, CSV or XLSX; "playworn export cars" writes JSON lines.');
  const wanted = {
    format,
    ...(lot !== undefined && { lotId: await lotNamed(api, lot) }),
    ...(on !== undefined && { on }),
    ...(title !== undefined && { title }),
    ...(basis !== undefined && { basis }),
    ...(paper !== undefined && { paper }),
    withPhotographs: options.photographs,
    withoutValues: !options.values,
    withoutPlaces: !options.places,
    withChanges: options.changes ?? false,
    ...(standard !== undefined && { standard }),
    sayPrepared: options.prepared ?? false,
  };
  return followed<Made>(await api.reports.make(wanted, { signal }));
};

/** What is noted of a report by its definition; its file is written in any case. */
const definedReport = async (api: Api, options: ReportOptions, signal: AbortSignal): Promise<Made> => {
  const definitions = await api.reports.definitions();
  const name = options.definition ?? '';
  const found = definitions.find(one => one.name.toLowerCase() === name.toLowerCase());
  if (!found)
    throw new Refused(
      `There is no report "${name}". The collection's reports: ${definitions.map(one => `"${one.name}"`).join(', ') || 'none yet'}.`,
    );
  const { on } = options;
  const { wanted } = found;
  const format = formatOf(options.out) as 'pdf';
  const made = await followed<Made>(
    'kind' in wanted
      ? await api.papers.make({ ...wanted, format }, { signal })
      : await api.reports.make({ ...wanted, format, ...(on !== undefined && { on }) }, { signal }),
  );
  await api.reports.keep({ token: made.token, definition: found.name });
  return made;
};

const deliveryIn = async (api: Api, text: string): Promise<number> => {
  const { reportingCurrency } = await api.collection.summary();
  try {
    return decimalToMinor(text, reportingCurrency);
  } catch (error) {
    throw new Refused(`--delivery: ${error instanceof Error ? error.message : String(error)}`);
  }
};

const otherPaper = async (
  api: Api,
  kind: PaperKind,
  options: ReportOptions,
  signal: AbortSignal,
): Promise<Made> => {
  const { car, lot, paper, from, to, standard, margin, sure, premium, tax, delivery } = options;
  const wanted = {
    kind,
    format: formatOf(options.out),
    ...(car !== undefined && { carId: await carNumbered(api, car) }),
    ...(lot !== undefined && { lotId: await lotNamed(api, lot) }),
    ...(paper !== undefined && { paper }),
    ...(from !== undefined && { from }),
    ...(to !== undefined && { to }),
    ...(margin !== undefined && { margin }),
    ...(sure !== undefined && { probability: sure }),
    ...(premium !== undefined && { premiumRate: premium }),
    ...(tax !== undefined && { taxRate: tax }),
    ...(delivery !== undefined && { carriage: await deliveryIn(api, delivery) }),
    ...(standard !== undefined && { standard }),
    withoutValues: !options.values,
    withoutPlaces: !options.places,
  };
  return followed<Made>(await api.papers.make(wanted, { signal }));
};

/** Which papers are about one car, which about one lot, and which can be of one lot. */
const ofOneCar = ['dossier', 'sale-sheet', 'claim', 'bench-sheet'];
const ofOneLot = ['lot', 'bid'];
const canBeOfOneLot = ['collection', 'worksheet', ...ofOneLot];

/** Refuses a paper without the car or lot that it is about, and one that is about neither with one. */
const checkSubject = ({ kind, car, lot }: ReportOptions): void => {
  if (car === undefined && ofOneCar.includes(kind)) throw new Refused('Say which car with --car NUMBER.');
  if (lot === undefined && ofOneLot.includes(kind)) throw new Refused('Say which lot with --lot "Name".');
  const kinds = (list: readonly string[]) => list.map(one => `--kind ${one}`).join(', ');
  if (car !== undefined && !ofOneCar.includes(kind))
    throw new Refused(`--car goes with ${kinds(ofOneCar)} only.`);
  if (lot !== undefined && !canBeOfOneLot.includes(kind))
    throw new Refused(`--lot goes with ${kinds(canBeOfOneLot)} only.`);
};

/** `playworn report`: a paper of the collection, a lot, a car or a year, as a document. */
export const report = async (options: ReportOptions): Promise<void> => {
  const path = outPath(options.out);
  const { kind } = options;
  if (options.definition === undefined) checkSubject(options);
  await withCollection(options, async ({ api, signal }) => {
    const { token, warnings, bytes } =
      options.definition !== undefined
        ? await definedReport(api, options, signal)
        : kind === 'collection' || kind === 'lot'
          ? await collectionReport(api, options, signal)
          : await otherPaper(api, kind, options, signal);
    const file = await api.reports.file({ token });
    writeWhole(path, new Uint8Array(await file.arrayBuffer()));
    if (options.keep) await api.reports.keep({ token });
    for (const warning of warnings) say(warning);
    print(options.json, { file: path, bytes, warnings }, made => [`${made.file}, ${made.bytes} bytes`]);
  });
};
