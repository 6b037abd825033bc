import Papa from 'papaparse';
import { activeCell, inertCell } from '../../valuation/reading/inert.ts';
import { readMeaning, wordField } from '../../valuation/reading/meanings.ts';
import type { OwnWord } from '../../valuation/reading/sale-line/lexicon.ts';
import { Refused } from './terminal.ts';
import { textOf } from './text-file.ts';

/**
 * The words of a CSV file with the columns column, text, field and meaning. A row without a meaning is not
 * answered and left out, so that a report of what was not understood can be given back half filled in; the
 * field "nothing" says that a text means nothing.
 */
export const wordsIn = async (path: string): Promise<OwnWord[]> => {
  const { data, meta } = Papa.parse<Record<string, string>>((await textOf(path)).trim(), {
    header: true,
    transformHeader: heading => heading.trim().toLowerCase(),
  });
  const lacking = ['text', 'field', 'meaning'].filter(column => !meta.fields?.includes(column));
  if (lacking.length > 0)
    throw new Refused(`${path} lacks ${lacking.join(', ')}; its columns are column,text,field,meaning.`);
  return data.flatMap((row, index) => {
    const [column, text, field, meaning] = ['column', 'text', 'field', 'meaning'].map(name =>
      activeCell(row[name]?.trim() ?? ''),
    ) as [string, string, string, string];
    const isNothing = wordField(field) === 'nothing';
    if (text === '' || (meaning === '' && !isNothing)) return [];
    const read = readMeaning(field, meaning);
    if (!read.ok) throw new Refused(`${path}, line ${index + 2}, "${text}": ${read.reason}.`);
    return [
      { column: column || '*', text, field: wordField(field) ?? field, meaning: isNothing ? '' : meaning },
    ];
  });
};

/** Words, or texts that wait for a meaning, as such a file. */
export const wordsCsv = (words: readonly OwnWord[]): string =>
  `${Papa.unparse(
    {
      fields: ['column', 'text', 'field', 'meaning'],
      data: words.map(({ column, text, field, meaning }) => [column, text, field, meaning].map(inertCell)),
    },
    { newline: '\n' },
  )}\n`;
