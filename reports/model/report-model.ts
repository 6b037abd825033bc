import { formatMinor } from '../../valuation/money.ts';
import { type Dialect, dialect } from '../../valuation/wording/dialect.ts';
import { plainLocale } from '../../valuation/wording/reader.ts';
import { usualTitle } from '../../valuation/wording/report-title.ts';
import { longDate, longInstant, printableLine, printableText } from '../printable.ts';
import type { CollectionReport, PaperSize, ReportEntry, ReportPhoto } from '../types.ts';
import { type ChangesModel, changesModel } from './changes.ts';
import {
  type EntryModel,
  entryModel,
  type FileOf,
  headingLength,
  photoPixels,
  shortened,
} from './entry-model.ts';
import { type GradeChart, gradeChart } from './grade-chart.ts';
import { ownEvidenceSentences } from './own-evidence.ts';
import {
  type BasisTotals,
  type GroupTotal,
  noPlace,
  placeOf,
  seriesOf,
  totalsOf,
  withoutWorthSentence,
} from './totals.ts';
import { worthAxis } from './worth-axis.ts';
import { drawnAmounts } from './worth-rows.ts';

interface GroupModel {
  name: string;
  cars: string;
  withoutWorth: string;
  asFound: string;
  /** Of the greatest group, 0…1. */
  share: number;
}

interface BasisModel {
  basis: string;
  total: GroupModel;
  /** "80 % range 8,100.00 to 10,200.00"; empty without a worth. */
  range: string;
  /** "40 cars, effective …", with what is to be known about the total. */
  summary: string;
  groups: { heading: string; column: string; rows: GroupModel[] }[];
}

/** The whole document as the template lays it out. */
export interface ReportModel extends ReportLayout {
  /** A copy that tells no value and no price. */
  withoutValues: boolean;
  title: string;
  owner: string;
  collection: string;
  scope: string;
  currency: string;
  basis: { name: string; definition: string; source: string };
  effectiveOn: string;
  preparedOn: string | null;
  assumptionsVersion: string;
  cars: string;
  carsNote: string;
  totals: BasisModel[];
  exceptions: string[];
  method: string[];
  limits: string[];
  /** The words of the glossary that the UK and the US write differently. */
  dialect: Pick<Dialect, 'colour' | 'customised'>;
  ticks: { at: number; label: string }[];
  /** Characters of the longest amount that a worth table shows. */
  longestFigure: number;
  coverPhotos: { file: string; alt: string }[];
  groups: EntryGroup[];
  /** All cars in the order given. */
  schedule: EntryLine[];
  /** The cars that are not sold by place, where any has one. */
  places: { name: string; cars: number; lines: EntryLine[] }[];
  chart: GradeChart | null;
  changes: ChangesModel | null;
  /** The cars of highest worth as found. */
  highest: (EntryLine & Pick<EntryModel, 'rows' | 'stripAlt'>)[];
  /** Characters of the longest inventory number and of the longest line of a car. */
  longest: { number: number; line: number };
  /** Which stretch of a long report this is; null where it is the whole. */
  part: ReportPart | null;
}

export interface EntryGroup {
  heading: string;
  entries: EntryModel[];
}

/** A car in a list, a line each. */
export interface EntryLine extends Pick<EntryModel, 'number' | 'shortName' | 'status' | 'grade' | 'finish'> {
  /** Its place in the order in which cars are described. */
  at: number;
  /** The middle figure as found; null without a value. */
  asFound: string | null;
  /** The page on which it is described; null where the document knows it by itself. */
  page: number | null;
}

/** A stretch of a long report, which is set by itself and joined with the others. */
export interface ReportPart {
  kind: 'front' | 'cars' | 'schedule' | 'places';
  firstPage: number;
  /** Whether its heading stands in it, or in an earlier stretch. */
  opens: boolean;
  /** The series that goes on from the stretch before. */
  continues: string;
  /** Of the first stretch: the pages of the others' headings, by label, and of the whole. */
  pages: Record<string, number>;
  pageCount: number;
}

export interface ReportLayout {
  paper: PaperSize;
  withPhotographs: boolean;
  /** Small photographs and running text, five to eight cars to the page. */
  compact: boolean;
}

const coverPhotoCount = 9;
const highestCount = 10;

const totalModels = (groups: GroupTotal[], report: CollectionReport): GroupModel[] => {
  const greatest = Math.max(...groups.map(group => group.asFound), 1);
  return groups.map(group => ({
    name: printableLine(group.name),
    cars: String(group.cars),
    withoutWorth: group.withoutWorth === 0 ? '' : String(group.withoutWorth),
    asFound:
      group.cars === group.withoutWorth
        ? '\u2013'
        : formatMinor(group.asFound, report.currency, report.locale),
    share: Math.max(0, group.asFound) / greatest,
  }));
};

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

const rangeOfTotal = ({ range }: BasisTotals, { currency, locale }: CollectionReport): string =>
  range
    ? `80\u00a0% range ${formatMinor(range.low, currency, locale)} to ${formatMinor(range.high, currency, locale)}`
    : '';

const summaryOf = (totals: BasisTotals, report: CollectionReport): string =>
  [
    `${counted(totals.cars, 'car', 'cars')}, effective ${longDate(report.effectiveOn)}.`,
    totals.withoutWorth === 0 || report.withoutValues ? '' : `${totals.withoutWorth} without a value.`,
    totals.ownFigures === 0
      ? ''
      : `Includes ${counted(totals.ownFigures, 'figure', 'figures')} of the owner\u2019s own, in all ${report.currency} ${formatMinor(totals.ownFiguresSum, report.currency, report.locale)}.`,
  ]
    .filter(Boolean)
    .join(' ');

/** What stands under the number of cars on the cover. */
const carsNote = (report: CollectionReport, totals: BasisTotals): string =>
  report.withoutValues
    ? ''
    : totals.cars !== report.entries.length
      ? `${totals.cars - totals.withoutWorth} of them in this total`
      : totals.withoutWorth === 0
        ? 'all with a value'
        : `${totals.withoutWorth} without a value`;

const basisModels = (report: CollectionReport): BasisModel[] =>
  totalsOf(report).bases.map(totals => ({
    basis: totals.basis,
    total: totalModels([totals], report)[0]!,
    range: rangeOfTotal(totals, report),
    summary: summaryOf(totals, report),
    groups: [
      { heading: 'By series', column: 'Series', rows: totalModels(totals.bySeries, report) },
      { heading: 'By grade', column: 'Grade', rows: totalModels(totals.byGrade, report) },
      { heading: 'By finish state', column: 'Finish state', rows: totalModels(totals.byFinishState, report) },
      { heading: 'By lot', column: 'Lot', rows: totalModels(totals.byLot, report) },
      { heading: 'By place', column: 'Place', rows: totalModels(totals.byPlace, report) },
    ],
  }));

const exceptionSentences = (report: CollectionReport): string[] => {
  const { bases, sold } = totalsOf(report);
  const without = report.withoutValues
    ? null
    : withoutWorthSentence(bases.reduce((sum, totals) => sum + totals.withoutWorth, 0));
  const ungraded = report.entries.filter(entry => entry.grade === null).length;
  return [
    without ? `${without}.` : '',
    sold === 0
      ? ''
      : `${counted(sold, 'sold car is', 'sold cars are')} listed${report.withoutValues ? '' : ', in no total'}.`,
    bases.length > 1
      ? 'Cars on another basis of value have their own total; do not add the two totals together.'
      : '',
    ungraded === 0 ? '' : `${counted(ungraded, 'car is', 'cars are')} not graded yet.`,
    ...(report.withoutValues
      ? ['Values and prices are left out of this copy.']
      : ownEvidenceSentences(report)),
  ].filter(Boolean);
};

const bySeries = (entries: ReportEntry[]): Map<string, ReportEntry[]> => {
  const groups = new Map<string, ReportEntry[]>();
  for (const entry of entries) {
    const name = seriesOf(entry);
    const group = groups.get(name);
    if (group) group.push(entry);
    else groups.set(name, [entry]);
  }
  return groups;
};

const worthOf = (entry: ReportEntry): number => entry.worths.asFound.range?.mid ?? -1;

/**
 * Photographs for the cover: of the cars of highest worth, one of each casting and colour before
 * any comes again.
 */
const coverPhotos = (report: CollectionReport, fileOf: FileOf): ReportModel['coverPhotos'] => {
  const seen = new Set<string>();
  const first: ReportPhoto[] = [];
  const again: ReportPhoto[] = [];
  const held = report.entries.filter(entry => entry.status !== 'sold');
  for (const { photos, identity } of held.sort((a, b) => worthOf(b) - worthOf(a))) {
    const [photo] = photos;
    if (!photo) continue;
    const look = `${identity.casting} ${identity.features.colour}`;
    (seen.has(look) ? again : first).push(photo);
    seen.add(look);
  }
  const chosen = [...first, ...again].slice(0, coverPhotoCount);
  const size = chosen.length < 3 ? photoPixels.page : photoPixels.column;
  return chosen.flatMap(photo => {
    const file = fileOf(photo.path, size);
    return file ? [{ file, alt: printableLine(photo.alt) || 'A car of the collection' }] : [];
  });
};

const longestFigure = (entries: EntryModel[]): number => {
  let longest = 0;
  for (const { rows } of entries)
    for (const { figures } of rows)
      for (const text of figures ? [figures.low, figures.mid, figures.high] : [])
        longest = Math.max(longest, text.length);
  return longest;
};

/** Where each entry, in the order given, stands once the cars are grouped. */
const placesInGroups = (report: CollectionReport, groups: Map<string, ReportEntry[]>): number[] => {
  const places = new Map([...groups.values()].flat().map((entry, place) => [entry, place]));
  return report.entries.map(entry => places.get(entry)!);
};

const lineOf = (entry: EntryModel, at: number): EntryLine => ({
  at,
  number: entry.number,
  shortName: entry.shortName,
  status: entry.status,
  grade: entry.grade,
  finish: entry.finish,
  asFound: entry.rows[0]?.figures?.mid ?? null,
  page: null,
});

/**
 * The cars that are not sold by place, in the places' order, those without one last; empty where none has
 * one.
 */
const byPlace = (report: CollectionReport, lines: readonly EntryLine[]): ReportModel['places'] => {
  const held = report.entries
    .map((entry, i) => ({ entry, line: lines[i]! }))
    .filter(({ entry }) => entry.status !== 'sold');
  const groups = Map.groupBy(held, ({ entry }) => placeOf(entry));
  if (groups.size === (groups.has(noPlace) ? 1 : 0)) return [];
  return [...groups]
    .sort(([a], [b]) =>
      a === noPlace ? 1 : b === noPlace ? -1 : a.localeCompare(b, 'en', { numeric: true }),
    )
    .map(([name, members]) => ({
      name: shortened(printableLine(name), headingLength),
      cars: members.length,
      lines: members.map(({ line }) => line),
    }));
};

const highestOf = (
  report: CollectionReport,
  places: readonly number[],
  models: readonly EntryModel[],
): ReportModel['highest'] =>
  report.entries
    .map((entry, i) => ({ entry, place: places[i]! }))
    .filter(({ entry }) => entry.worths.asFound.range && entry.status !== 'sold' && !entry.basis)
    .sort((a, b) => worthOf(b.entry) - worthOf(a.entry))
    .slice(0, highestCount)
    .map(({ place }) => {
      const { rows, stripAlt } = models[place]!;
      return { ...lineOf(models[place]!, place), rows, stripAlt };
    });

const longestOf = (lines: readonly EntryLine[]): ReportModel['longest'] => {
  const longest = { number: 0, line: 0 };
  for (const { number, shortName, status } of lines) {
    longest.number = Math.max(longest.number, number.length);
    longest.line = Math.max(longest.line, shortName.length + status.length);
  }
  return longest;
};

/**
 * Everything the PDF says, in the order and words in which it says it; cars are grouped by series,
 * otherwise in the order given.
 */
export const reportModel = (report: CollectionReport, layout: ReportLayout, fileOf: FileOf): ReportModel => {
  const words = dialect(report.locale ?? plainLocale);
  const groups = bySeries(report.entries);
  const places = placesInGroups(report, groups);
  const axis = worthAxis(drawnAmounts(report), report.currency, report.locale);
  const groupModels = [...groups].map(([heading, entries]) => ({
    heading: shortened(printableLine(heading), headingLength),
    entries: entries.map(entry => entryModel(entry, report, axis, fileOf, layout.compact)),
  }));
  const models = groupModels.flatMap(group => group.entries);
  const lines = places.map(place => lineOf(models[place]!, place));
  return {
    ...layout,
    withoutValues: report.withoutValues ?? false,
    title: printableLine(report.title) || usualTitle,
    owner: printableLine(report.owner),
    collection: printableLine(report.collection),
    scope: printableLine(report.scope),
    currency: report.currency,
    basis: {
      name: report.basis.name,
      definition: printableText(report.basis.definition),
      source: printableText(report.basis.source),
    },
    effectiveOn: longDate(report.effectiveOn),
    preparedOn: report.preparedOn && longInstant(report.preparedOn),
    assumptionsVersion: printableLine(report.assumptionsVersion),
    cars: String(report.entries.length),
    carsNote: carsNote(report, totalsOf(report).bases[0]!),
    totals: basisModels(report),
    exceptions: exceptionSentences(report),
    method: report.method.map(printableText),
    limits: report.limits.map(printableText),
    dialect: { colour: words.colour, customised: words.customised },
    ticks: axis?.ticks ?? [],
    longestFigure: longestFigure(models),
    coverPhotos: layout.withPhotographs ? coverPhotos(report, fileOf) : [],
    groups: groupModels,
    schedule: lines,
    places: byPlace(report, lines),
    chart: gradeChart(report),
    changes: changesModel(report),
    highest: highestOf(report, places, models),
    longest: longestOf(lines),
    part: null,
  };
};
