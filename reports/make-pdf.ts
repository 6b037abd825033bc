import { photosPerEntry } from './entry-model.ts';
import { printPhotos } from './photos.ts';
import { readAssets } from './report-assets.ts';
import { reportModel } from './report-model.ts';
import type { CollectionReport } from './types.ts';
import { type Typeset, typeset } from './typeset.ts';
import type { ReportJob, ReportProgress } from './worker-messages.ts';

/** Photographs of a car that are printed, and pixels of their long side: 400, 320 and 254 to the inch. */
const photoPrint = (compact: boolean, cars: number): { perEntry: number; pixels: number } =>
  compact ? { perEntry: 1, pixels: 320 } : { perEntry: photosPerEntry, pixels: cars <= 300 ? 900 : 720 };

const photoWarnings = (report: CollectionReport, perEntry: number, failed: Map<string, string>): string[] =>
  report.entries.flatMap(entry =>
    entry.photos
      .slice(0, perEntry)
      .filter(photo => failed.has(photo.path))
      .map(photo => `${entry.inventoryNumber}: photograph missing (${failed.get(photo.path)})`),
  );

/**
 * The whole work of a report, as the worker does it: photographs, model, typesetting.
 * Blocks while typesetting.
 */
export const makePdf = async (
  { report, layout, standard, assets, preview }: ReportJob,
  onProgress: (progress: ReportProgress) => void,
): Promise<Typeset> => {
  const { templates, fonts } = await readAssets(assets);
  const { perEntry, pixels } = photoPrint(layout.compact, report.entries.length);
  const paths = layout.withPhotographs
    ? report.entries.flatMap(entry => entry.photos.slice(0, perEntry).map(photo => photo.path))
    : [];
  const { ready, failed } = await printPhotos(paths, pixels, (done, total) =>
    onProgress({ stage: 'photographs', done, total }),
  );
  const files = new Map<string, string>();
  for (const path of paths)
    if (ready.has(path) && !files.has(path)) files.set(path, `photo-${files.size + 1}.jpg`);
  onProgress({ stage: 'typesetting', done: 0, total: 1 });
  const model = reportModel(report, layout, path => files.get(path) ?? null);
  const result = typeset({
    templates,
    main: 'report.typ',
    fonts,
    data: JSON.stringify(model),
    photos: new Map([...files].map(([path, file]) => [file, ready.get(path)!])),
    standard,
    preview,
    createdAt: Math.floor(Date.parse(report.stampedAt) / 1000),
  });
  return { ...result, warnings: [...photoWarnings(report, perEntry, failed), ...result.warnings] };
};
