import type { DateOrder } from '../reading/date.ts';
import type { Encoding, Separator } from '../reading/file-formats.ts';
import type { DecimalSign } from '../reading/money.ts';
import type { Currency } from '../types.ts';
import { counted } from './reader.ts';

/** What the ways in which a list can be written are called. */
export const encodingNames: Record<Encoding, string> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16, little-endian',
  'utf-16be': 'UTF-16, big-endian',
  'windows-1252': 'Windows-1252',
};

export const separatorNames: Record<Separator, string> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'bar',
};

export const decimalSignNames: Record<DecimalSign, string> = {
  '.': 'decimal point',
  ',': 'decimal comma',
};

export const dateOrderNames: Record<DateOrder, string> = {
  dmy: 'day first',
  mdy: 'month first',
  ymd: 'year first',
};

/** How many cells of the rows that are taken were understood, as a phrase. */
export const cellsText = ({
  understood,
  partly,
  unknown,
  idle,
}: {
  understood: number;
  partly: number;
  unknown: number;
  idle: number;
}): string =>
  [
    `${understood} of ${counted(understood + partly + unknown, 'cell')} understood`,
    partly > 0 ? `${partly} more in part` : '',
    idle > 0 ? `${idle} in columns that are not read` : '',
  ]
    .filter(Boolean)
    .join('; ');

const answerNames: Readonly<Record<string, string>> = { ...decimalSignNames, ...dateOrderNames };

/** What can be answered of how a column is written; a currency by its code. */
export const formatAnswerName = (answer: DecimalSign | DateOrder | Currency): string =>
  answerNames[answer] ?? answer;

/** Of how a column is written: its decimal sign, the order of its days, the currency of amounts that name none. */
export type FormatKind = 'decimal' | 'dates' | 'currency';

const formatQuestions: Record<FormatKind, (column: string) => string> = {
  decimal: column => `Does “${column}” have a decimal point or comma?`,
  dates: column => `Which comes first in the days of “${column}”?`,
  currency: column => `In which currency are the amounts of “${column}” that name none?`,
};

const mostExamples = 3;
const examplesText = (examples: readonly string[]): string => examples.slice(0, mostExamples).join(', ');

/** What a file cannot tell of a column by itself, as a question. */
export const formatQuestionText = ({
  column,
  kind,
  cells,
  examples,
}: {
  column: string;
  kind: FormatKind;
  cells: number;
  examples: readonly string[];
}): string =>
  `${formatQuestions[kind](column)} ${cells === 1 ? '1 cell' : `${cells} cells`} can be read either way: ${examplesText(examples)}.`;

/** How a column was found to be written, and from what, as a sentence. */
export const learnedText = ({
  column,
  kind,
  value,
  from,
  other,
  cells,
  examples,
}: {
  column: string;
  kind: FormatKind;
  value: DecimalSign | DateOrder | Currency;
  from: 'its cells' | 'its heading' | 'another column' | 'your answer';
  other?: string | undefined;
  cells: number;
  examples: readonly string[];
}): string => {
  const told =
    from === 'your answer'
      ? 'as you said'
      : from === 'another column'
        ? `as in “${other ?? ''}”`
        : from === 'its heading'
          ? 'as the heading says'
          : `which ${cells === 1 ? 'one cell shows' : `${cells} cells show`}`;
  const shown = examples.length > 0 ? `: ${examplesText(examples)}` : '';
  const name = kind === 'currency' ? `amounts without a currency in ${value}` : formatAnswerName(value);
  return `“${column}”: ${name}, ${told}${shown}.`;
};
