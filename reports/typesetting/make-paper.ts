import { photosOf } from '../documents/document.ts';
import { documentModel } from '../documents/document-model.ts';
import { documentParts } from '../documents/document-parts.ts';
import { labelModel, labelParts } from '../labels/label-model.ts';
import { makePdf } from './make-pdf.ts';
import { printPhotos } from './photos.ts';
import { readAssets } from './report-assets.ts';
import { setParts } from './set-parts.ts';
import { mostPreviewed, type Typeset, typeset } from './typeset.ts';
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
  const parts = documentParts(job.document);
  const result = await setParts(parts, job.standard, (part, { standard, firstPage }) => {
    onProgress({ stage: 'typesetting', done: parts.indexOf(part), total: parts.length });
    const document = { ...job.document, blocks: part.blocks };
    const place = { opens: part.opens, firstPage, isWhole: parts.length === 1 };
    const own = photosOf(document).filter(path => files.has(path));
    return typeset({
      templates,
      main: 'document.typ',
      fonts,
      data: JSON.stringify(documentModel(document, path => files.get(path) ?? null, place)),
      photos: new Map(own.map(path => [files.get(path)!, ready.get(path)!])),
      standard,
      preview: job.preview && firstPage <= mostPreviewed,
      createdAt: seconds(job.stampedAt),
    });
  });
  const missing = [...failed.values()].map(reason => `A photograph is missing (${reason})`);
  return { ...result, warnings: [...missing, ...result.warnings] };
};

const makeLabels = async (job: LabelJob, onProgress: Hear): Promise<Typeset> => {
  const { templates, fonts } = await readAssets(job.assets);
  const parts = labelParts(job.labels, job.sheet, job.start);
  return setParts(parts, 'a-2a', (part, { standard, firstPage }) => {
    onProgress({ stage: 'typesetting', done: parts.indexOf(part), total: parts.length });
    return typeset({
      templates,
      main: 'labels.typ',
      fonts,
      data: JSON.stringify(labelModel(part.labels, job.sheet, part.start)),
      photos: new Map(),
      standard,
      preview: job.preview && firstPage <= mostPreviewed,
      createdAt: seconds(job.stampedAt),
    });
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
