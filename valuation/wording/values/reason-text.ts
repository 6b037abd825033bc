import type { Reason, TornadoInput, Turning } from '../../types.ts';
import { deviationLabel } from '../../words.ts';
import { spell } from '../dialect.ts';
import { casesText, moneyText, percentText, type Reader, sentenceCase, signedText } from '../reader.ts';
import { doubtfulText, evidenceText, helpText } from './evidence-text.ts';
import { guardInShort, guardText } from './guard-text.ts';
import { optionWords } from './option-words.ts';

type ReasonOf<Kind extends Reason['kind']> = Extract<Reason, { kind: Kind }>;

const gainText = (reason: ReasonOf<'gain'>, reader: Reader): string => {
  const { option, expectedGain, cost, afterFees, probability } = reason;
  const change = `${moneyText(Math.abs(expectedGain), reader)} ${expectedGain >= 0 ? 'more' : 'less'}`;
  const taken = [
    ...(cost.high > 0 ? [`costs of ${moneyText(cost.mid, reader)}`] : []),
    ...(afterFees ? ['selling costs'] : []),
  ];
  const after = taken.length > 0 ? `, after ${taken.join(' and ')}` : '';
  const doing = sentenceCase(optionWords(option, reader.locale).doingIt);
  return `${doing} is expected to bring ${change} than leaving it${after}, and beats leaving in ${casesText(probability)}.`;
};

const breakEvenText = (reason: ReasonOf<'break-even'>, reader: Reader): string => {
  const { option, recommended, worth, cost } = reason;
  const doing = sentenceCase(optionWords(option, reader.locale).doing);
  const sells = `sells for ${moneyText(worth, reader)} or more`;
  const under = `costs less than ${moneyText(cost, reader)}`;
  if (recommended) return `${doing} pays if it ${sells} and ${under}.`;
  return cost > 0
    ? `${doing} pays only if it ${sells}, or ${under}.`
    : `${doing} pays only if it ${sells}; no cost is low enough.`;
};

/**
 * A reason for a recommendation, as a sentence or two. Its amounts are in the reader's currency, which is
 * the reporting one.
 */
export const reasonText = (reason: Reason, reader: Reader): string => {
  switch (reason.kind) {
    case 'not-enough-evidence':
      return 'There is not enough evidence of what it is worth.';
    case 'help':
      return helpText(reason.help);
    case 'gain':
      return gainText(reason, reader);
    case 'guard':
      return guardText(reason.guard);
    case 'nothing-pays':
      return 'Nothing that could be done to it is expected to bring more than it costs.';
    case 'under-least-gain':
      return `That is under the least gain of ${moneyText(reason.leastGain, reader)} that you ask for.`;
    case 'under-least-probability':
      return `That is under the ${percentText(reason.leastProbability)} of cases that you ask for.`;
    case 'break-even':
      return breakEvenText(reason, reader);
    case 'plan-from-car':
      return 'It has no plan of its own: one made from its grade, parts, finish and factory specification is used.';
    case 'standard-plan':
      return 'It has no plan of its own: the standard plan is used.';
    case 'deviations':
      return `The plan departs from the factory specification (${reason.deviations.map(kind => spell(deviationLabel(kind), reader.locale)).join(', ')}).`;
    case 'evidence':
      return [`The value rests on ${evidenceText(reason.evidence)}.`, doubtfulText(reason.evidence)]
        .filter(Boolean)
        .join(' ');
    case 'no-sale-of-state':
      return `No sale of a ${reason.state} car is known: what it would bring rests on an assumption.`;
    case 'own-figure':
      return 'The value is your own figure: there are too few sale records.';
  }
};

/** What a recommendation turns on, as one line of a list; empty where it turns on nothing. */
export const turningText = (turning: Turning, reader: Reader): string => {
  const doing = (option: Parameters<typeof optionWords>[0]) => optionWords(option, reader.locale).doing;
  switch (turning.kind) {
    case 'help':
      return turning.help === null ? 'There are too few sale records.' : helpText(turning.help);
    case 'guards':
      return turning.guards.map(guard => `${guardInShort(guard)}.`).join(' ');
    case 'next-best':
      return `Next best is ${doing(turning.option)}, ${signedText(turning.expectedGain, reader)}.`;
    case 'no-other':
      return '';
    case 'nothing-possible':
      return 'Nothing else can be done with it.';
    case 'nothing-pays':
      return `Nothing pays; the nearest is ${doing(turning.nearest)}, ${signedText(turning.expectedGain, reader)}.`;
    case 'under-least-gain':
      return `${sentenceCase(doing(turning.option))} brings ${signedText(turning.expectedGain, reader)}, under your least gain of ${moneyText(turning.leastGain, reader)}.`;
    case 'under-least-probability':
      return `${sentenceCase(doing(turning.option))} brings ${signedText(turning.expectedGain, reader)}, but pays in only ${percentText(turning.probability)} of cases; you ask for ${percentText(turning.leastProbability)}.`;
  }
};

/** An input of the tornado, as a label inside a sentence or a table. */
export const tornadoInputText = (input: TornadoInput): string => {
  switch (input) {
    case 'worth-afterwards':
      return 'value afterwards';
    case 'worth-as-found':
      return 'value as found';
    case 'cost':
      return 'cost';
    case 'spoil-chance':
      return 'chance of spoiling it';
    case 'selling-costs':
      return 'selling costs';
  }
};
