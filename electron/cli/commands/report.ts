import { extname } from 'node:path';
import type { PaperSize } from '../../../reports/types.ts';
import type { ValueBasis } from '../../../valuation/words.ts';
import type { ReportResult } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { lotNamed } from '../named.ts';
import { followed } from '../progress-bar.ts';
import { print, say } from '../terminal.ts';
import { outPath, writeWhole } from '../write-out.ts';

export interface ReportOptions {
  collection: string;
  out: string;
  lot?: string;
  on?: string;
  title?: string;
  basis?: ValueBasis;
  paper?: PaperSize;
  photographs: boolean;
  prepared?: boolean;
  json?: boolean;
}

const formats = { '.pdf': 'pdf', '.csv': 'csv', '.xlsx': 'xlsx' } as const;

export const reportFormat = (out: string) => formats[extname(out).toLowerCase() as keyof typeof formats];

/** `playworn report`: the collection, or one lot, as a document. */
export const report = async (options: ReportOptions): Promise<void> => {
  const path = outPath(options.out);
  await withCollection(options, async ({ api, signal }) => {
    const { on, title, basis, paper, lot } = options;
    const wanted = {
      format: reportFormat(path),
      ...(lot !== undefined && { lotId: await lotNamed(api, lot) }),
      ...(on !== undefined && { on }),
      ...(title !== undefined && { title }),
      ...(basis !== undefined && { basis }),
      ...(paper !== undefined && { paper }),
      withPhotographs: options.photographs,
      sayPrepared: options.prepared ?? false,
    };
    const { token, warnings, bytes } = await followed<ReportResult>(
      await api.reports.make(wanted, { signal }),
    );
    const file = await api.reports.file({ token });
    writeWhole(path, new Uint8Array(await file.arrayBuffer()));
    for (const warning of warnings) say(warning);
    print(options.json, { file: path, bytes, warnings }, made => [`${made.file}, ${made.bytes} bytes`]);
  });
};
