import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { isAboutFinish } from '../../../valuation/reading/propose.ts';
import { isOfGoods } from '../../../valuation/reading/sale-line/kind.ts';
import { wanting, wantingFirst } from '../../../valuation/reading/sale-line/vocabulary.ts';
import { readBasePaint, readYear } from '../../../valuation/reading/words.ts';
import { type VariationFeature, variationFeatures } from '../../../valuation/words.ts';
import type { LoadedReference, Match } from '../../reference/match.ts';
import { bare } from '../../reference/plain.ts';
import { isPlaceAlone } from '../put-away.ts';
import { hearPieces } from './description.ts';
import type { FeatureReading, FeatureTexts } from './feature-text.ts';
import { type Judged, mostMatches, type RowReader } from './judge.ts';
import { nearNames } from './near-names.ts';
import { remembered } from './remembered.ts';

const basePaintOf = remembered(readBasePaint);
const yearOf = remembered(readYear);
const ranges = ['maker', 'series', 'casting', 'release_name'] as const;

/** What a row says that a car is. */
export interface Identity {
  /** Its texts, in our words where they were understood, as a record keeps them. */
  written: Record<string, string>;
  match: Match;
  /** Remarks on condition that stand in the columns of features. */
  remarks: string[];
}

/** What texts lead to; those that begin alike share what they begin with. */
interface Known {
  match: Match | null;
  /** By the column of the next text, and by that text. */
  next: Map<string, Map<string, Known>> | null;
}

const nothingKnown = (): Known => ({ match: null, next: null });

const remember = (before: Known, column: string, text: string, known: Known): void => {
  before.next ??= new Map();
  const texts = before.next.get(column);
  if (texts) texts.set(text, known);
  else before.next.set(column, new Map([[text, known]]));
};

const untidy = /^\s|\s$|\s\s|[^\S ]/;

/** A name as it stands, with one space between its words. */
const tidy = (text: string): string => (untidy.test(text) ? text.replace(/\s+/g, ' ').trim() : text);

/**
 * Takes a feature's text, in the reference's spelling where it has it; what it says besides goes
 * to its own field.
 */
const takeFeature = (
  row: RowReader,
  texts: FeatureTexts,
  castingId: number | null,
  feature: VariationFeature,
): { value: string | null; remark: string | null; isOpen: boolean } | null => {
  const column = featureColumns[feature];
  const text = row.takeText(column);
  if (text === '') return null;
  const reading: FeatureReading = row.isSaid(column)
    ? { value: text }
    : texts.read(castingId, feature, text, row.heading(column));
  if (reading.heard) hearPieces(row, column, reading.heard);
  for (const { text: left, reason } of reading.unread ?? []) {
    // What a cell says of a finish is asked as one, unless the list says it elsewhere.
    const field = isAboutFinish(left) && !row.tellsFinish ? 'finish_state' : column;
    row.miss(column, reason, left, field);
  }
  if (reading.facts)
    for (const [field, value] of Object.entries(reading.facts)) row.give(field, value, column);
  if (reading.value !== undefined) row.fields[column] = reading.value;
  else delete row.fields[column];
  return {
    value: reading.value ?? null,
    remark: reading.isRemark ? `${row.heading(column)}: ${text}` : null,
    isOpen: reading.unread !== undefined && reading.unread.length > 0,
  };
};

const wish = new RegExp(
  `^[^\\p{L}]*(?:${wanting}|${wantingFirst}|still need(?:ed)?)(?!\\p{L})|` +
    '^[^:]{0,20}?(?<!\\p{L})(?:want(?:ed|s)?|wish(?:es|list)?|looking for|to find|gesucht|suche|recherche|cherche|gezocht|cercasi|busco)(?!\\p{L})[^:]{0,12}:',
  'iu',
);

/**
 * Refuses a line that names a maker, a series or a place to put cars and nothing else, as above the rows of a
 * list, or a car that its owner wishes for.
 */
export const notOwned = (reference: LoadedReference, row: RowReader): Judged | null => {
  if (row.filled !== 1) return null;
  const column = row.written('casting') ? 'casting' : 'description';
  const text = row.written(column);
  if (text === '') return null;
  if (reference.isRange(text))
    return {
      outcome: 'rejected',
      column,
      reason: `"${text}" is the name of a maker or a series, and of no car`,
      not: 'a sub-heading',
    };
  if (isPlaceAlone(text) && reference.match({ casting: text }).castingId === null)
    return { outcome: 'rejected', column, reason: `"${text}" is a place, and no car`, not: 'a sub-heading' };
  return wish.test(text)
    ? { outcome: 'rejected', column, reason: `"${text.slice(0, 100)}" is a wish`, not: 'a wish' }
    : null;
};

/** Refuses a row whose name its owner has settled to be no car, or that is one of the things beside cars. */
export const notACar = (
  reference: LoadedReference,
  { written, match }: Pick<Identity, 'written' | 'match'>,
): Judged | null => {
  const name = written.casting || written.release_name || '';
  if (name === '' || match.castingId !== null) return null;
  if (reference.settled(name) === undefined && isOfGoods(name))
    return {
      outcome: 'rejected',
      column: 'casting',
      reason: `"${name.slice(0, 100)}" is not a car`,
      not: 'not a car',
    };
  if (reference.settled(name)?.means !== 'not a car') return null;
  const reason = `you said that "${name}" is not a car; take that back among the settled names if it is one`;
  return { outcome: 'rejected', column: 'casting', reason, not: 'not a car' };
};

/** Reads what rows say that cars are: each text in our words, in the reference's, or as it was written. */
export const identityReader = (
  reference: LoadedReference,
  texts: FeatureTexts,
  readRemarks: (row: RowReader, castingId: number | null) => void = () => {},
) => {
  const root = nothingKnown();
  let matches = 0;
  const nameLike = nearNames(reference);
  /** The name that a text of no known casting shortens or mistypes. */
  const nearName = (
    row: RowReader,
    { casting, release_name: release }: Record<string, string>,
    castingId: number | null,
  ): string | null => {
    if (castingId !== null || !casting || release || reference.settled(casting) !== undefined) return null;
    const name = nameLike(casting);
    // A name as the reference has it is not found for another reason: its maker or series.
    if (name !== null && bare(name) === bare(casting)) return null;
    if (name !== null) row.notes.push(`"${tidy(casting)}" is read as ${name}`);
    return name;
  };
  /** What is known of these texts and of one more. */
  const withText = (before: Known, column: string, text: string): Known => {
    const known = before.next?.get(column)?.get(text);
    if (known) return known;
    const made = nothingKnown();
    if (matches++ < mostMatches) remember(before, column, text, made);
    return made;
  };

  return (row: RowReader): Identity => {
    const written: Record<string, string> = {};
    const remarks: string[] = [];
    let known = root;
    /** Columns of which something was not understood. */
    const open: string[] = [];
    const understand = (column: string, text: string): void => {
      written[column] = text;
      known = withText(known, column, text);
    };
    const leaveOpen = (column: string, text: string): void => {
      written[column] = text;
      open.push(column);
    };
    let near: string | null = null;
    /** What is compared with the reference: what was not understood is no reason that nothing fits. */
    const understood = (): Record<string, string> => {
      const texts: Record<string, string> = near === null ? { ...written } : { ...written, casting: near };
      for (const column of open) delete texts[column];
      return texts;
    };
    for (const column of ranges) {
      const text = row.takeText(column);
      if (!text) continue;
      understand(column, text);
      row.fields[column] = tidy(text);
    }
    const matched = (): Match => {
      known.match ??= reference.match(understood());
      return known.match;
    };
    near = nearName(row, written, matched().castingId);
    if (near !== null) known = withText(known, 'near', near);
    const { castingId } = matched();
    readRemarks(row, castingId);
    if (written.release_name === undefined) {
      const release = row.takeText('release_name');
      if (release) understand('release_name', release);
    }
    // The colour goes first: its cell may say what others have no cell for.
    for (const feature of variationFeatures) {
      if (feature === 'basePaint') continue;
      const column = featureColumns[feature];
      const taken = takeFeature(row, texts, castingId, feature);
      if (taken === null) continue;
      if (taken.value !== null) understand(column, taken.value);
      else if (taken.remark !== null) remarks.push(taken.remark);
      else if (taken.isOpen) leaveOpen(column, row.text(column));
    }
    const basePaint = row.take('base_paint', basePaintOf);
    if (basePaint) understand('base_paint', basePaint);
    else if (row.has('base_paint')) leaveOpen('base_paint', row.text('base_paint').slice(0, 200));
    const year = row.take('release_year', yearOf);
    if (year) understand('release_year', String(year));
    else if (row.has('release_year')) leaveOpen('release_year', row.text('release_year').slice(0, 200));
    const found = openWhere(matched(), open.length > 0);
    nameAsKnown(row, reference, found, near === null ? written : { ...written, casting: near });
    return { written, match: found, remarks };
  };
};

/**
 * A car of which something was not understood is no variation for certain, though only one may fit the rest.
 */
const openWhere = (match: Match, isOpen: boolean): Match =>
  isOpen && match.variationId !== null
    ? { ...match, variationId: null, candidates: [match.variationId] }
    : match;

/** Gives the fields of a known casting and release in the reference's spelling. */
const nameAsKnown = (
  row: RowReader,
  reference: LoadedReference,
  { castingId, releaseId }: Match,
  { casting, release_name: release }: Record<string, string>,
): void => {
  const known = castingId === null ? undefined : reference.castingOf(castingId);
  if (!known) return;
  row.fields.casting = known.name;
  if (casting === undefined || release !== undefined || casting === known.name) return;
  if (bare(casting) === bare(known.name)) return;
  const name = releaseId === null ? undefined : reference.releaseName(releaseId);
  // A text that its owner has settled as this casting is no name of a release.
  const sold = name ?? (reference.settled(casting) === undefined ? tidy(casting) : undefined);
  if (sold !== undefined && bare(sold) !== bare(known.name)) row.fields.release_name = sold;
};
