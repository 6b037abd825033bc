import { photosOf } from './documents/document.ts';
import { documentModel } from './documents/document-model.ts';
import { labelModel } from './labels/label-model.ts';
import { makePdf } from './make-pdf.ts';
import { printPhotos } from './photos.ts';
import { readAssets } from './report-assets.ts';
import { type Typeset, typeset } from './typeset.ts';
import type { DocumentJob, LabelJob, PaperJob, ReportProgress } from './worker-messages.ts';

type Hear = (progress: ReportProgress) => void;

const seconds = (instant: string): number => Math.floor(Date.parse(instant) / 1000);

/** Pixels of a photograph's long side: 250 to the inch where it is as wide as the page. */
const documentPixels = 1200;

const makeDocument = async (job: DocumentJob, onProgress: Hear): Promise<Typeset> => {
  const { templates, fonts } = await readAssets(job.assets);
  const paths = photosOf(job.document);
  const { ready, failed } = await printPhotos(paths, documentPixels, (done, total) =>
    onProgress({ stage: 'photographs', done, total }),
  );
  const files = new Map(paths.filter(path => ready.has(path)).map((path, i) => [path, `photo-${i + 1}.jpg`]));
  onProgress({ stage: 'typesetting', done: 0, total: 1 });
  const result = typeset({
    templates,
    main: 'document.typ',
    fonts,
    data: JSON.stringify(documentModel(job.document, path => files.get(path) ?? null)),
    photos: new Map([...files].map(([path, file]) => [file, ready.get(path)!])),
    standard: job.standard,
    preview: job.preview,
    createdAt: seconds(job.stampedAt),
  });
  const missing = [...failed.values()].map(reason => `A photograph is missing (${reason})`);
  return { ...result, warnings: [...missing, ...result.warnings] };
};

const makeLabels = async (job: LabelJob, onProgress: Hear): Promise<Typeset> => {
  const { templates, fonts } = await readAssets(job.assets);
  onProgress({ stage: 'typesetting', done: 0, total: 1 });
  return typeset({
    templates,
    main: 'labels.typ',
    fonts,
    data: JSON.stringify(labelModel(job.labels, job.sheet, job.start)),
    photos: new Map(),
    standard: 'a-2a',
    preview: job.preview,
    createdAt: seconds(job.stampedAt),
  });
};

/** Any paper, as the worker makes it. Blocks while typesetting. */
export const makePaper = (job: PaperJob, onProgress: Hear): Promise<Typeset> => {
  switch (job.kind) {
    case 'report':
      return makePdf(job, onProgress);
    case 'document':
      return makeDocument(job, onProgress);
    case 'labels':
      return makeLabels(job, onProgress);
  }
};
