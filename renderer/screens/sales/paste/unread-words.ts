import { proposeMeaning } from '../../../../valuation/reading/propose.ts';
import { type AskedWord, wordKey } from '../../../components/own-words/ask-words.tsx';
import type { PasteRow } from './paste-draft.ts';

const mostLines = 5;

/**
 * The texts of the lines that are not understood, each once, those of most lines first; names that wait
 * are settled elsewhere.
 */
export const unreadWords = (rows: readonly PasteRow[]): AskedWord[] => {
  const words = new Map<string, { column: string; text: string; lines: number[] }>();
  for (const { line, unread, name } of rows)
    for (const { column, text } of unread) {
      if (name !== null && text.includes(name)) continue;
      const key = wordKey({ column, text });
      const word = words.get(key) ?? { column, text, lines: [] };
      words.set(key, word);
      if (word.lines.at(-1) !== line) word.lines.push(line);
    }
  return [...words.values()]
    .sort((a, b) => b.lines.length - a.lines.length)
    .map(({ column, text, lines }) => ({
      column,
      text,
      ...proposeMeaning('', text),
      rows: lines.length,
      where: `${lines.length === 1 ? 'line' : 'lines'} ${lines.slice(0, mostLines).join(', ')}${lines.length > mostLines ? ' …' : ''}`,
    }));
};
