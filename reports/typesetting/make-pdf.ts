import { photosPerEntry } from '../model/entry-model.ts';
import { reportModel } from '../model/report-model.ts';
import type { CollectionReport } from '../types.ts';
import { type SetModel, setInStretches } from './long-report.ts';
import { PhotoFiles } from './photo-files.ts';
import { readAssets } from './report-assets.ts';
import { isLong } from './stretches.ts';
import { mostPreviewed, type Typeset, typeset } from './typeset.ts';
import type { ReportJob, ReportProgress } from './worker-messages.ts';

const photoWarnings = (report: CollectionReport, perEntry: number, failed: Map<string, string>): string[] =>
  report.entries.flatMap(entry =>
    entry.photos
      .slice(0, perEntry)
      .filter(photo => failed.has(photo.path))
      .map(photo => `${entry.inventoryNumber}: photograph missing (${failed.get(photo.path)})`),
  );

/**
 * The whole work of a report, as the worker does it: model, photographs, typesetting; a long one in
 * stretches. Blocks while typesetting.
 */
export const makePdf = async (
  { report, layout, standard, assets, preview }: ReportJob,
  onProgress: (progress: ReportProgress) => void,
): Promise<Typeset> => {
  const { templates, fonts } = await readAssets(assets);
  const files = new PhotoFiles();
  const model = reportModel(report, layout, layout.withPhotographs ? files.nameOf : () => null);
  const setModel: SetModel = (part, photos, how) =>
    typeset({
      templates,
      main: 'report.typ',
      fonts,
      data: JSON.stringify(part),
      photos,
      standard: how.standard,
      preview: preview && how.before < mostPreviewed,
      createdAt: Math.floor(Date.parse(report.stampedAt) / 1000),
    });
  const makeIn = async (wanted: typeof standard): Promise<Typeset> => {
    if (isLong(model, files)) return setInStretches(model, files, { setModel, standard: wanted, onProgress });
    const ready = await files.ready(model, (done, total) =>
      onProgress({ stage: 'photographs', done, total }),
    );
    onProgress({ stage: 'typesetting', done: 0, total: 1 });
    return setModel(ready.model, ready.photos, { standard: wanted, before: 0 });
  };
  const made = await makeIn(standard);
  // A stretch that falls short of the standard takes the others with it.
  const result = made.pages > 0 ? made : { ...(await makeIn('1.7')), warnings: made.warnings };
  const perEntry = layout.compact ? 1 : photosPerEntry;
  return { ...result, warnings: [...photoWarnings(report, perEntry, files.failed), ...result.warnings] };
};
