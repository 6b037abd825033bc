import type { OutlinedHeading } from '../join/join-parts.ts';
import type { EntryGroup, EntryLine, ReportModel, ReportPart } from '../model/report-model.ts';
import { filesOf, type PhotoFiles } from './photo-files.ts';

/** What one document holds at most: so much bounds the memory in which it is set. */
export const most = { cars: 200, lines: 1000, photoBytes: 150e6 };
/** A report up to so many times that is set as one document, which knows its number of pages by itself. */
const wholeIn = 2;

/** A stretch of the report as its document's model, without what is known only once others are set. */
export interface Stretch {
  model: ReportModel;
  cars: number;
  /** What its outline has, in order. */
  headings: OutlinedHeading[];
}

/** By what a car is linked to, by its place in the order in which cars are described. */
export const carLabel = (at: number): string => `car-${at}`;

const allEntries = (groups: readonly EntryGroup[]): number =>
  groups.reduce((sum, { entries }) => sum + entries.length, 0);

/** Whether a report is set in stretches; otherwise as one document. */
export const isLong = (model: ReportModel, files: PhotoFiles): boolean =>
  allEntries(model.groups) > wholeIn * most.cars || files.weight(filesOf(model)) > wholeIn * most.photoBytes;

/** A stretch that begins a section has its heading. */
const sectionHeading = (label: string, opens: boolean): OutlinedHeading[] =>
  opens ? [{ level: 1, label }] : [];

const carHeadings = (groups: readonly EntryGroup[], firstEntry: number): OutlinedHeading[] => {
  let at = firstEntry;
  return groups.flatMap(({ heading, entries }) => [
    ...(heading === '' ? [] : [{ level: 2 }]),
    ...entries.map(() => ({ level: 3, label: carLabel(at++) })),
  ]);
};

const partOf = (kind: ReportPart['kind'], changes: Partial<ReportPart> = {}): ReportPart => ({
  kind,
  firstPage: 1,
  opens: true,
  continues: '',
  pages: {},
  pageCount: 0,
  ...changes,
});

/** The cars in the order in which they are described, cut where a document has enough. */
const cutGroups = (
  groups: readonly EntryGroup[],
  files: PhotoFiles,
): { groups: EntryGroup[]; continues: string; firstEntry: number }[] => {
  const cut: { groups: EntryGroup[]; continues: string; firstEntry: number }[] = [];
  let cars = Number.POSITIVE_INFINITY;
  let bytes = 0;
  let at = 0;
  for (const { heading, entries } of groups)
    for (const [i, entry] of entries.entries()) {
      const own = files.weight(entry.photos.flatMap(({ file }) => file ?? []));
      if (cars >= most.cars || bytes + own > most.photoBytes) {
        cut.push({ groups: [], continues: i > 0 ? heading : '', firstEntry: at });
        cars = 0;
        bytes = 0;
      }
      const here = cut.at(-1)!.groups;
      if (i === 0) here.push({ heading, entries: [] });
      // The heading stands where the series begins.
      else if (here.length === 0) here.push({ heading: '', entries: [] });
      here.at(-1)!.entries.push(entry);
      cars += 1;
      bytes += own;
      at += 1;
    }
  return cut;
};

const cutLines = (lines: readonly EntryLine[]): EntryLine[][] =>
  Array.from({ length: Math.ceil(lines.length / most.lines) }, (_, i) =>
    lines.slice(i * most.lines, (i + 1) * most.lines),
  );

/** The places, cut between and within them; each stretch names what it continues. */
const cutPlaces = (places: ReportModel['places']): ReportModel['places'][] => {
  const cut: ReportModel['places'][] = [];
  let lines = Number.POSITIVE_INFINITY;
  for (const place of places)
    for (const [i, piece] of cutLines(place.lines).entries()) {
      if (lines + piece.length > most.lines) {
        cut.push([]);
        lines = 0;
      }
      cut.at(-1)!.push({ ...place, name: i === 0 ? place.name : `${place.name}, continued`, lines: piece });
      lines += piece.length;
    }
  return cut;
};

/** A long report in stretches, in their order: what stands before the cars, the cars, the lists. */
export const stretchesOf = (model: ReportModel, files: PhotoFiles): Stretch[] => {
  const bare: ReportModel = {
    ...model,
    coverPhotos: [],
    groups: [],
    schedule: [],
    places: [],
    highest: [],
    changes: null,
    chart: null,
    totals: [],
    method: [],
    limits: [],
    exceptions: [],
  };
  return [
    {
      model: { ...model, groups: [], schedule: [], places: [], part: partOf('front') },
      cars: 0,
      headings: ['totals', ...(model.changes ? ['changes'] : []), 'method'].flatMap(label =>
        sectionHeading(label, true),
      ),
    },
    ...cutGroups(model.groups, files).map(({ groups, continues, firstEntry }, i) => ({
      model: { ...bare, groups, part: partOf('cars', { continues, opens: i === 0 }) },
      cars: allEntries(groups),
      headings: [...sectionHeading('cars', i === 0), ...carHeadings(groups, firstEntry)],
    })),
    ...cutLines(model.schedule).map((schedule, i) => ({
      model: { ...bare, schedule, part: partOf('schedule', { opens: i === 0 }) },
      cars: 0,
      headings: sectionHeading('schedule', i === 0),
    })),
    ...cutPlaces(model.places).map((places, i) => ({
      model: { ...bare, places, part: partOf('places', { opens: i === 0 }) },
      cars: 0,
      headings: sectionHeading('places', i === 0),
    })),
  ];
};
