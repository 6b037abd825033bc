import type { Fidelity, PartState, Range } from '../../valuation/types.ts';
import { spell } from '../../valuation/wording/dialect.ts';
import { featureNames } from '../../valuation/wording/feature-names.ts';
import { moneyText, type Reader, sentenceCase } from '../../valuation/wording/reader.ts';
import {
  carGradeLabel,
  deviationLabel,
  type FinishState,
  type Grade,
  gradeLabel,
  type Rarity,
  type VariationFeature,
  variationFeatures,
} from '../../valuation/words.ts';
import type { DocumentBlock } from './document.ts';

/** What papers say of a car, as plain data. */
export interface CarFacts {
  inventoryNumber: string;
  series: string | null;
  casting: string | null;
  releaseName: string | null;
  releaseYear: number | null;
  features: Record<VariationFeature, string>;
  asWritten: Record<string, string>;
  rarity: Rarity | null;
  grade: Grade | null;
  finishState: FinishState;
  /** Of the work that was done to it, or is planned for it where it has its factory finish. */
  fidelity: Fidelity | null;
  /** The newest condition check by part. */
  parts: (PartState & { note: string })[];
}

/** "An owner's inventory", at the foot of every paper. */
export const footerText = 'An inventory made by the owner, not an appraisal';

/** A car's name for a heading: its release, else its casting, else what its owner wrote. */
export const carName = (car: Pick<CarFacts, 'casting' | 'releaseName' | 'asWritten'>): string =>
  car.releaseName ??
  car.casting ??
  (car.asWritten.casting || Object.values(car.asWritten)[0] || 'Unidentified car');

/** Grade and state, which stand together wherever a car without its factory finish has a grade. */
export const conditionText = (car: Pick<CarFacts, 'grade' | 'finishState'>, locale: string): string =>
  spell(
    car.grade === null ? `not graded, ${car.finishState}` : carGradeLabel(car.grade, car.finishState),
    locale,
  );

export const rangeText = (range: Range | null | undefined, reader: Reader): string =>
  range
    ? `${reader.currency} ${moneyText(range.mid, reader)} (80 % range ${moneyText(range.low, reader)} to ${moneyText(range.high, reader)})`
    : 'not enough evidence';

/** The lines that say which car it is. */
export const identityFacts = (car: CarFacts, locale: string): { label: string; value: string }[] => {
  const names = featureNames(locale);
  const year = car.releaseYear === null ? '' : ` (${car.releaseYear})`;
  return [
    { label: 'Inventory number', value: car.inventoryNumber },
    ...(car.casting ? [{ label: 'Casting', value: car.casting }] : []),
    ...(car.releaseName ? [{ label: 'Sold as', value: `${car.releaseName}${year}` }] : []),
    ...(car.series ? [{ label: 'Series', value: car.series }] : []),
    ...variationFeatures
      .filter(feature => car.features[feature])
      .map(feature => ({ label: sentenceCase(names[feature]), value: car.features[feature] })),
    ...(car.rarity ? [{ label: 'Rarity', value: car.rarity }] : []),
  ];
};

const stateWords = (locale: string): Record<FinishState, string> => ({
  original: 'This car has its factory finish.',
  'touched up': 'This car’s factory finish has been touched up: it is not all as it left the factory.',
  restored: 'This car is restored: its finish is not the one that it left the factory with.',
  customised: spell(
    'This car is customised: its finish is not the one that it left the factory with, and was not meant to be.',
    locale,
  ),
  stripped: 'This car has been stripped: nothing of its factory finish is left.',
});

/** What must be said of a car to anybody who may buy, insure or inherit it. Stands on every paper about one car. */
export const disclosureText = (
  car: Pick<CarFacts, 'finishState' | 'fidelity' | 'parts'>,
  locale: string,
): string => {
  // A car with its factory finish departs from nothing yet: what its plan would bring is not what it is.
  const isWorked = car.finishState === 'restored' || car.finishState === 'customised';
  const departures = isWorked ? (car.fidelity?.deviations ?? []).map(deviationLabel) : [];
  const ofKind = (originality: string) =>
    car.parts.filter(part => part.originality === originality).map(part => part.part);
  const reproduction = ofKind('reproduction');
  const missing = ofKind('missing');
  const period = ofKind('period replacement');
  return spell(
    [
      stateWords(locale)[car.finishState],
      ...(departures.length > 0
        ? [`It departs from the factory specification: ${departures.join(', ')}.`]
        : []),
      ...(reproduction.length > 0 ? [`Reproduction parts: ${reproduction.join(', ')}.`] : []),
      ...(period.length > 0 ? [`Replaced by parts of the period: ${period.join(', ')}.`] : []),
      ...(missing.length > 0 ? [`Missing: ${missing.join(', ')}.`] : []),
      ...(car.parts.length === 0 ? ['Its parts have not been looked at one by one.'] : []),
    ].join(' '),
    locale,
  );
};

/** The grade of each part that was looked at. */
export const partsTable = (parts: CarFacts['parts'], locale: string): DocumentBlock => ({
  kind: 'table',
  columns: [
    { title: 'Part' },
    { title: 'Grade', align: 'right' },
    { title: 'Originality' },
    { title: 'Note', width: 'wide' },
  ],
  rows: parts.map(({ part, grade, originality, note }) => [
    spell(part, locale),
    grade === null ? '–' : gradeLabel(grade),
    originality,
    note,
  ]),
});
