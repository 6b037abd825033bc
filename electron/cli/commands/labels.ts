import type { LabelSheetKey } from '../../../reports/labels/label-sheets.ts';
import { counted } from '../../../valuation/wording/reader.ts';
import type { ReportResult } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { lotNamed } from '../named.ts';
import { followed } from '../progress-bar.ts';
import { print } from '../terminal.ts';
import { outPath, writeWhole } from '../write-out.ts';

interface LabelOptions {
  collection: string;
  out: string;
  sheet: LabelSheetKey;
  start: number;
  lot?: string;
  json?: boolean;
}

/** `playworn labels`: a label for each car, with its number as a QR code, on a sheet that is sold for it. */
export const labels = async (options: LabelOptions): Promise<void> => {
  const path = outPath(options.out);
  await withCollection(options, async ({ api, signal }) => {
    const { sheet, start, lot } = options;
    const made = await followed<ReportResult & { labels: number }>(
      await api.papers.labels(
        { sheet, start, ...(lot !== undefined && { lotId: await lotNamed(api, lot) }) },
        { signal },
      ),
    );
    const file = await api.reports.file({ token: made.token });
    writeWhole(path, new Uint8Array(await file.arrayBuffer()));
    print(options.json, { file: path, labels: made.labels, bytes: made.bytes }, shown => [
      `${shown.file}, ${counted(shown.labels, 'label')}. Print it at 100 %, without fitting it to the page.`,
    ]);
  });
};
