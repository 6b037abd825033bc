import { JoinedPdf } from '../join/join-parts.ts';
import type { EntryLine, ReportModel } from '../model/report-model.ts';
import type { PdfStandard } from '../types.ts';
import { freeMemory } from './free-memory.ts';
import type { PhotoFiles } from './photo-files.ts';
import { carLabel, type Stretch, stretchesOf } from './stretches.ts';
import type { Typeset } from './typeset.ts';
import type { ReportProgress } from './worker-messages.ts';

/** How one document of a report is set; `before` counts the pages in front of it. */
export type SetModel = (
  model: ReportModel,
  photos: Map<string, Buffer>,
  how: { standard: PdfStandard; before: number },
) => Typeset;

/** Pages of the other stretches before they are known, as wide as they may be. */
const anyPage = 9999;

/** The pages that are prepared for looking at, from the first on without a gap. */
const previewOf = (made: Typeset[]): string[] => {
  const pages: string[] = [];
  for (const { preview, pages: count } of made) {
    pages.push(...preview);
    if (preview.length < count) break;
  }
  return pages;
};

/**
 * PDF/UA-1 wants a document to begin with its highest heading, which a stretch that goes on from another does
 * not: such a one is held to PDF/A-2a, and the whole to PDF/UA-1 by what stands before the cars.
 */
const standardOf = ({ model }: Stretch, wanted: PdfStandard): PdfStandard =>
  wanted === 'ua-1' && !model.part!.opens ? 'a-2a' : wanted;

const withPages = <Line extends EntryLine>(lines: Line[], pageOf: (line: Line) => number): Line[] =>
  lines.map(line => ({ ...line, page: pageOf(line) }));

/** What stands before the cars, with the pages that it names. */
const frontModel = (
  { model }: Stretch,
  whole: ReportModel,
  pages: { ofCar: (line: EntryLine) => number; ofSection: (name: string) => number; count: number },
): ReportModel => {
  const named = ['cars', 'schedule', ...(whole.places.length > 0 ? ['places'] : [])];
  return {
    ...model,
    highest: withPages(model.highest, pages.ofCar),
    part: {
      ...model.part!,
      pages: Object.fromEntries(named.map(name => [name, pages.ofSection(name)])),
      pageCount: pages.count,
    },
  };
};

/**
 * Sets a long report stretch by stretch and joins them, so that the memory needed is that of one stretch
 * and of the file. The cars come first, for their pages stand in all that is set after them. Where a
 * stretch does not meet the standard, the result names another and has no pages.
 */
export const setInStretches = async (
  whole: ReportModel,
  files: PhotoFiles,
  {
    setModel,
    standard,
    onProgress,
  }: { setModel: SetModel; standard: PdfStandard; onProgress: (progress: ReportProgress) => void },
): Promise<Typeset> => {
  const [front, ...others] = stretchesOf(whole, files);
  if (!front) throw new Error('A report has no first part');
  const cover = await files.ready(front.model, () => {});
  front.model = cover.model;
  const guess = { ofCar: () => anyPage, ofSection: () => anyPage, count: anyPage };
  const tried = setModel(frontModel(front, whole, guess), cover.photos, { standard, before: 0 });
  const joined = new JoinedPdf();
  const made: Typeset[] = [];
  const add = (result: Typeset, place: number, firstPage: number, { headings }: Stretch): void => {
    joined.add(result.pdf, { place, firstPage, headings });
    made[place] = { ...result, pdf: new Uint8Array() };
  };
  const pageOfCar = ({ at }: EntryLine): number => joined.pageOf(carLabel(at))!;
  const total = others.reduce((sum, { cars }) => sum + cars, 0);
  let before = tried.pages;
  let done = 0;
  for (const [i, stretch] of others.entries()) {
    const { model, cars } = stretch;
    onProgress({ stage: 'typesetting', done, total });
    const { model: shown, photos } = await files.ready(model, () => {});
    const placed = {
      ...shown,
      schedule: withPages(model.schedule, pageOfCar),
      places: model.places.map(place => ({ ...place, lines: withPages(place.lines, pageOfCar) })),
      part: { ...model.part!, firstPage: before + 1 },
    };
    const own = standardOf(stretch, standard);
    const result = setModel(placed, photos, { standard: own, before });
    if (result.standard !== own) return { ...result, pages: 0 };
    add(result, i + 1, before + 1, stretch);
    before += result.pages;
    done += cars;
    await freeMemory();
  }
  const known = { ofCar: pageOfCar, ofSection: (name: string) => joined.pageOf(name)!, count: before };
  const last = setModel(frontModel(front, whole, known), cover.photos, { standard, before: 0 });
  if (last.standard !== standard) return { ...last, pages: 0 };
  if (last.pages !== tried.pages) throw new Error('The first pages of the report do not keep their number');
  add(last, 0, 1, front);
  return {
    pdf: joined.finish(),
    pages: before,
    preview: previewOf(made),
    standard,
    warnings: [...new Set(made.flatMap(({ warnings }) => warnings))],
  };
};
