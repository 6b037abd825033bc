import type Papa from 'papaparse';
import { activeCell, inertCell } from '../../../../valuation/reading/inert.ts';
import { readMeaning, wordField } from '../../../../valuation/reading/meanings.ts';
import type { WordAnswer } from '../../../components/own-words/ask-words.tsx';

const columns = ['column', 'text', 'field', 'meaning'] as const;

/** Words as a CSV file, which `playworn import --words` reads too. */
export const wordsToCsv = (papa: typeof Papa, words: readonly WordAnswer[]): string =>
  `${papa.unparse(
    { fields: [...columns], data: words.map(word => columns.map(name => inertCell(word[name]))) },
    { newline: '\r\n' },
  )}\r\n`;

/**
 * The words of such a file; a row without a meaning is a question that nobody has answered, and is left out.
 * What cannot be taken is told line by line.
 */
export const wordsFromCsv = (
  papa: typeof Papa,
  text: string,
): { words: WordAnswer[]; problems: string[] } => {
  const { data, meta } = papa.parse<Record<string, string>>(text.replace(/^\ufeff/, '').trim(), {
    header: true,
    transformHeader: heading => heading.trim().toLowerCase(),
  });
  const lacking = ['text', 'field', 'meaning'].filter(column => !meta.fields?.includes(column));
  if (lacking.length > 0)
    return {
      words: [],
      problems: [`The file lacks ${lacking.join(', ')}: its columns are column, text, field and meaning.`],
    };
  const words: WordAnswer[] = [];
  const problems: string[] = [];
  data.forEach((row, index) => {
    const cell = (name: string) => activeCell(row[name]?.trim() ?? '');
    const word = {
      column: cell('column') || '*',
      text: cell('text'),
      field: cell('field'),
      meaning: cell('meaning'),
    };
    if (word.text === '' || (word.meaning === '' && wordField(word.field) !== 'nothing')) return;
    const read = readMeaning(word.field, word.meaning);
    if (read.ok) words.push({ ...word, field: wordField(word.field) ?? word.field });
    else problems.push(`Line ${index + 2}, “${word.text}”: ${read.reason}.`);
  });
  return { words, problems };
};
