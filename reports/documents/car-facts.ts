import type { PartState, Range } from '../../valuation/types.ts';
import {
  colourNow,
  type DisclosureFacts,
  disclosureText,
  notItsOwnText,
} from '../../valuation/wording/cars/disclosure-text.ts';
import { featureNames } from '../../valuation/wording/cars/feature-names.ts';
import { spell } from '../../valuation/wording/dialect.ts';
import { moneyText, type Reader, sentenceCase } from '../../valuation/wording/reader.ts';
import {
  carGradeLabel,
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
  disclosure: DisclosureFacts;
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

/** The colour that a car wears, with the one that it was made in. */
export const carColour = (car: Pick<CarFacts, 'features' | 'asWritten' | 'disclosure'>): string =>
  colourNow(car.features.colour || car.asWritten.colour || '', car.disclosure.wornColour);

/** A feature as it is now; of colour and body finish what the car wears, with what it was made in. */
const featureNow = ({ features, disclosure }: CarFacts, feature: VariationFeature): string => {
  if (feature === 'colour') return colourNow(features.colour, disclosure.wornColour);
  if (feature === 'bodyFinish') return colourNow(features.bodyFinish, disclosure.wornFinish);
  return features[feature];
};

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
      .map(feature => ({ label: sentenceCase(names[feature]), value: featureNow(car, feature) }))
      .filter(({ value }) => value),
    ...(car.rarity ? [{ label: 'Rarity', value: car.rarity }] : []),
  ];
};

/**
 * What must be said of a car to anybody who may buy, insure or inherit it. Stands on every
 * paper about one car.
 */
export const statementText = ({ disclosure }: Pick<CarFacts, 'disclosure'>, locale: string): string =>
  disclosureText(disclosure, locale) ||
  `This car has its factory finish. ${notItsOwnText(disclosure.parts, locale)}`.trim();

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
