import { gradeScaleExamples } from '../../../valuation/reading/grade-scale.ts';
import { readMeaning } from '../../../valuation/reading/meanings.ts';
import { fieldName, type Meaning, meaningValue } from '../../../valuation/wording/own-word-text.ts';
import {
  basePaints,
  finishStates,
  grades,
  partNames,
  rarities,
  settableStatuses,
} from '../../../valuation/words.ts';
import { type Choice, filterChoices } from '../inputs/choices.ts';

/** The words that the reference has for each field, by the names of imports. */
export type Vocabulary = Readonly<Record<string, readonly string[]>>;

/** Left for later: not a meaning, but an answer. */
export const later = '\u0000later';

const written = (meaning: Meaning): string => JSON.stringify([meaning.field, meaning.meaning]);

/** What was chosen; null where it is to be left for later. */
export const meaningOf = ({ value }: Choice): Meaning | null => {
  if (value === later) return null;
  const [field = '', meaning = ''] = JSON.parse(value) as string[];
  return { field, meaning };
};

/**
 * Fields that have a closed list of meanings; the first that fits is not taken for a text that
 * is none of them.
 */
const closed: Record<string, readonly string[]> = {
  grade: [...grades].reverse().map(String),
  finish_state: finishStates,
  base_paint: basePaints,
  rarity: rarities,
  status: settableStatuses,
  missing_parts: partNames,
  reproduction_parts: partNames,
  grade_scale: gradeScaleExamples,
};

const choice = (meaning: Meaning, own: string, locale: string): Choice => ({
  value: written(meaning),
  label: meaningValue(meaning, locale),
  ...(meaning.field !== own && { detail: fieldName(meaning.field, locale) }),
});

/**
 * What a text of a field can mean: the field's own words first, then what else a remark can say, then
 * that it is no value.
 */
export interface Asked {
  field: string;
  text: string;
}

const general = ({ field, text }: Asked, locale: string): Choice[] => [
  choice({ field: 'notes', meaning: text }, field, locale),
  {
    ...choice({ field: 'nothing', meaning: '' }, field, locale),
    label: 'says nothing: leave it out',
    detail: '',
  },
  { value: later, label: 'leave it for later' },
];

const ownChoices = (field: string, vocabulary: Vocabulary, locale: string): Choice[] => {
  const words = closed[field] ?? vocabulary[field] ?? [];
  return words.map(meaning => choice({ field, meaning }, field, locale));
};

/** Remarks that stand in any column. */
const remarks = ['finish_state', 'reproduction_parts', 'missing_parts', 'base_paint'];

/**
 * The meanings that fit what is typed. A text that the field takes as it is, or that its reader understands
 * ("7/10"), is offered as well.
 */
export const meaningChoices = (
  asked: Asked,
  typed: string,
  vocabulary: Vocabulary,
  locale: string,
): Choice[] => {
  const { field } = asked;
  const own = ownChoices(field, vocabulary, locale);
  const said = typed.trim();
  if (said === '') return [...own, ...general(asked, locale)];
  const others = remarks
    .filter(one => one !== field)
    .flatMap(one =>
      ownChoices(one, vocabulary, locale).map(each => ({ ...each, detail: fieldName(one, locale) })),
    );
  const found = [...filterChoices(own, said), ...filterChoices(others, said, 12)];
  const read = field === '' ? null : readMeaning(field, said);
  const typedChoice = read?.ok ? choice({ field, meaning: read.value }, field, locale) : null;
  const isThere = found.some(
    ({ value, label }) => value === typedChoice?.value || label.toLowerCase() === said.toLowerCase(),
  );
  const free =
    typedChoice && !isThere ? [{ ...typedChoice, detail: closed[field] ? '' : 'as it is written' }] : [];
  return [
    ...(closed[field] ? free : []),
    ...found,
    ...(closed[field] ? [] : free),
    ...filterChoices(general(asked, locale), said),
  ];
};
