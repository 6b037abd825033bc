import type { AssumptionSet } from '../../valuation/types.ts';

/**
 * The paragraphs "how the values were found" of a report, in plain words, for the assumption set in use.
 * Source: the engine's own model; no published guide is behind it.
 */
export const methodParagraphs = (assumptions: AssumptionSet): string[] => [
  'Each value is based on sale records that the owner has collected: observed sales of comparable cars. Every record is adjusted to the car in question, for its date, its grade, its finish state, missing or reproduction parts and its currency, and each such step can be opened in the program.',
  `Where a variation has few sales of its own, the records of its casting, its series and the whole collection are used as well, each as far as the evidence supports (Bühlmann–Straub credibility). Older records count less: half after ${assumptions.halfLifeYears} years.`,
  'The middle figure is the median. Low and high are the ends of an 80\u00a0% range: of ten such cars, about eight should sell between them.',
  'As found is the car as it is today. Restored is what it would sell for after the planned restoration, where one is planned, and is never the value of the car as it is. Original finish is its variation with factory finish, at the grade that careful conservation alone can reach.',
];

const grading =
  'The owner graded the cars, on a ten-point scale from C10, as made, to C1, a wreck, in half points.';

const notAppraised = [
  'This is an inventory made by the owner. It is not an appraisal, and no independent person has examined the cars for it.',
];

const withFigures = [
  ...notAppraised,
  'Where too few sales are known the report says \u201cnot enough evidence\u201d and gives no figure. Such a car may be worth little or much; it is counted, but it is in no total. The owner\u2019s own figures are marked as such.',
  'Each total is what its cars are expected to bring when they are sold one by one: the mean. It is higher than the sum of their middle figures, because a few cars bring far more than their middle. Its range takes account of what the cars have in common. Sold all at once, they may bring less.',
  grading,
];

/** The paragraphs "what this report is not", of a copy with or without values. */
export const limitParagraphs = (withoutValues = false): string[] =>
  withoutValues ? [...notAppraised, 'Values and prices are left out of this copy.', grading] : withFigures;
