import { formatMinor } from '../../valuation/money.ts';
import type { PartState } from '../../valuation/types.ts';
import { colourNow } from '../../valuation/wording/cars/disclosure-text.ts';
import { featureNames } from '../../valuation/wording/cars/feature-names.ts';
import { spell } from '../../valuation/wording/dialect.ts';
import { plainLocale } from '../../valuation/wording/reader.ts';
import { reportedEvidence } from '../../valuation/wording/values/evidence-text.ts';
import { carGradeLabel, gradeLabel, variationFeatures } from '../../valuation/words.ts';
import { longDate, printableLine, printableText } from '../printable.ts';
import type { CollectionReport, ReportEntry } from '../types.ts';
import type { WorthAxis } from './worth-axis.ts';
import { stripInWords, type WorthRow, worthNotes, worthRows } from './worth-rows.ts';

/** A car as the template lays it out: finished sentences and places, nothing left to work out there. */
export interface EntryModel {
  number: string;
  name: string;
  /** Name and colour where a line must do. */
  shortName: string;
  release: string;
  maker: string;
  grade: string;
  finish: string;
  /** What must be said of a car that is not as made; empty for an original one. */
  finishStatement: string;
  status: string;
  /** `at` is the place of the colour among `facts`, or -1. */
  chip: { swatch: string; basePaint: string; at: number } | null;
  facts: [string, string][];
  /** Facts that take a line each. */
  lines: [string, string][];
  /** Where the car is and where it came from. */
  whereabouts: [string, string][];
  photos: { file: string | null; alt: string }[];
  morePhotos: number;
  rows: WorthRow[];
  stripAlt: string;
  basis: string;
  partsSentence: string;
  parts: { part: string; grade: string; originality: string }[];
  /** What is to be known about its worths, such as "Original finish: no longer attainable." */
  worthNotes: string;
  evidence: string;
  notes: string;
  /** True where it may be longer than a page, so that it must be allowed to break. */
  long: boolean;
}

const acquisitionText = ({ acquisition }: ReportEntry, locale?: string): string => {
  if (!acquisition) return '';
  const cost =
    acquisition.cost !== null && acquisition.currency
      ? `${acquisition.currency}\u00a0${formatMinor(acquisition.cost, acquisition.currency, locale)}`
      : '';
  const from = printableLine(acquisition.from);
  return [
    printableLine(acquisition.lot),
    acquisition.on ? longDate(acquisition.on) : '',
    from ? `from ${from}` : '',
    cost,
  ]
    .filter(Boolean)
    .join(', ');
};

const isException = (part: PartState, overall: number | null): boolean =>
  part.originality !== 'original' ||
  (part.grade !== null && overall !== null && Math.abs(part.grade - overall) >= 1.5);

const partsOf = (entry: ReportEntry): Pick<EntryModel, 'partsSentence' | 'parts'> => {
  const { parts, grade } = entry;
  if (parts.length === 0) return { partsSentence: '', parts: [] };
  const exceptions = parts.filter(part => isException(part, grade));
  const others = parts.length - exceptions.length;
  const graded = parts.flatMap(part => (isException(part, grade) || part.grade === null ? [] : [part.grade]));
  const span =
    graded.length === 0
      ? ''
      : Math.min(...graded) === Math.max(...graded)
        ? ` at ${gradeLabel(graded[0]!)}`
        : `, ${gradeLabel(Math.min(...graded))} to ${gradeLabel(Math.max(...graded))}`;
  const counted = others === 1 ? '1 part' : `${others} parts`;
  const sentence =
    others === 0
      ? ''
      : exceptions.length === 0
        ? `All ${counted} looked at are original${span}.`
        : `The other ${counted} looked at: original${span}.`;
  return {
    partsSentence: sentence,
    parts: exceptions.map(part => ({
      part: part.part,
      grade: part.grade === null || part.originality === 'missing' ? '\u2013' : gradeLabel(part.grade),
      originality: part.originality,
    })),
  };
};

/** Photographs that an entry prints; the rest are counted. */
export const photosPerEntry = 3;

/**
 * Pixels of the long side of a photograph by the room that it has: 320 to the inch, 180 where one picture
 * fills the cover.
 */
export const photoPixels = { page: 1200, column: 720, compact: 320, thumb: 240 } as const;
export type PhotoPixels = (typeof photoPixels)[keyof typeof photoPixels];

/**
 * The name inside the document of a photograph that is printed so large, or null where none is to be shown.
 */
export type FileOf = (path: string, pixels: PhotoPixels) => string | null;
// About what fits on a page beside the photograph; beyond it a car may break over the page end.
const longEntry = 1800;
const shortNameLength = 48;

/**
 * Most letters of a name in a heading, which cannot break over pages; a longer name is printed whole
 * among the facts.
 */
export const headingLength = 160;

const entryName = ({ identity }: ReportEntry): string =>
  printableLine(identity.casting) || printableLine(identity.asWritten) || 'Not identified';

// Letters of the scripts beyond U+2E80 are about twice as wide.
const printedWidth = (character: string): number => (character >= '\u2e80' ? 2 : 1);

/** A name cut to a width in letters, with … where something is left out. */
export const shortened = (name: string, most: number): string => {
  let width = 0;
  const kept = [...name.replaceAll('\u200b', '')].filter(character => {
    width += printedWidth(character);
    return width < most;
  });
  return width < most ? name : printableLine(`${kept.join('')}\u2026`);
};

const releaseText = ({ identity }: ReportEntry, name: string): string => {
  const released = printableLine(identity.releaseName);
  const year = identity.releaseYear === null ? '' : String(identity.releaseYear);
  if (released && released !== name) return `released as \u201c${released}\u201d${year ? ` in ${year}` : ''}`;
  return year ? `released ${year}` : '';
};

/**
 * The model of one car. `fileOf` gives a photograph's name inside the document, or null where it
 * cannot be shown.
 */
export const entryModel = (
  entry: ReportEntry,
  report: CollectionReport,
  axis: WorthAxis | null,
  fileOf: FileOf,
  compact = false,
): EntryModel => {
  const { identity } = entry;
  const photographs = compact ? 1 : photosPerEntry;
  const name = entryName(entry);
  const fact = (label: string, text: string | null | undefined): [string, string][] => {
    const printed = printableLine(text);
    return printed ? [[label, printed]] : [];
  };
  const features = featureNames(report.locale ?? plainLocale);
  const featureFacts = variationFeatures.flatMap(feature =>
    fact(
      features[feature],
      feature === 'colour'
        ? colourNow(identity.features.colour ?? '', entry.worn.colour)
        : feature === 'bodyFinish'
          ? colourNow(identity.features.bodyFinish ?? '', entry.worn.finish)
          : identity.features[feature],
    ).map(said => ({ feature, said })),
  );
  const facts = [
    ...featureFacts.map(({ said }) => said),
    ...(identity.features.country ? [] : fact('Maker\u2019s country', identity.makerCountry)),
  ];
  const lines = [
    shortened(name, headingLength) === name ? [] : fact('Name', name),
    identity.casting ? fact('As written', identity.asWritten) : [],
    fact('Object', [identity.type, identity.materials, identity.measurements].filter(Boolean).join('; ')),
    fact('Markings', identity.markings),
    fact('Distinguishing', identity.distinguishingFeatures),
  ].flat();
  const whereabouts = [
    ...fact('Location', entry.location),
    ...fact('Acquired', acquisitionText(entry, report.locale)),
    ...fact('Documented', entry.documentedOn && longDate(entry.documentedOn)),
  ];
  const rows = report.withoutValues
    ? []
    : worthRows(entry, report, axis).map(row => ({ ...row, note: printableLine(row.note) }));
  const unread = entry.notUnderstood ? `Written and not understood: ${entry.notUnderstood}` : null;
  const notes = printableText([entry.notes, unread].filter(Boolean).join('\n'));
  const evidence = entry.evidence
    ? printableText(reportedEvidence(entry.evidence, entry.worths.asFound.own))
    : '';
  const printed = [name, notes, evidence, ...[...facts, ...lines, ...whereabouts].flat()].join('');
  return {
    number: printableLine(entry.inventoryNumber),
    name: shortened(name, headingLength),
    shortName: shortened(
      [name, printableLine(colourNow(identity.features.colour ?? '', entry.worn.colour))]
        .filter(Boolean)
        .join(', '),
      shortNameLength,
    ),
    release: releaseText(entry, name),
    maker: [printableLine(identity.maker), printableLine(identity.series)].filter(Boolean).join(', '),
    grade:
      entry.grade === null
        ? 'not graded'
        : spell(carGradeLabel(entry.grade, entry.finishState), report.locale ?? plainLocale),
    finish: spell(entry.finishState, report.locale ?? plainLocale),
    finishStatement: printableText(entry.disclosure),
    status: entry.status === 'kept' ? '' : entry.status,
    chip: identity.swatch
      ? {
          swatch: identity.swatch,
          basePaint: identity.features.basePaint ?? '',
          at: featureFacts.findIndex(({ feature }) => feature === 'colour'),
        }
      : null,
    facts,
    lines,
    whereabouts,
    photos: entry.photos.slice(0, photographs).map((photo, i) => ({
      file: fileOf(
        photo.path,
        i > 0 ? photoPixels.thumb : compact ? photoPixels.compact : photoPixels.column,
      ),
      alt: printableLine(photo.alt) || `Photograph of ${name}`,
    })),
    morePhotos: Math.max(0, entry.photos.length - photographs),
    rows,
    stripAlt: rows.length === 0 ? '' : stripInWords(rows, report.currency),
    basis: entry.basis && entry.basis !== report.basis.name ? entry.basis : '',
    ...partsOf(entry),
    worthNotes: worthNotes(rows),
    evidence,
    notes,
    long: printed.length + printed.split('\n').length * 40 > longEntry,
  };
};
