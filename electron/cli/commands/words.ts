import { counted } from '../../../valuation/wording/reader.ts';
import type { SettledWords, WordsView } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { print } from '../terminal.ts';
import { wordsIn } from '../words-file.ts';

interface WordsOptions {
  collection: string;
  json?: boolean;
}

const lines = ({ words }: Pick<WordsView, 'words'>): string[] =>
  words.map(
    ({ column, text, field, meaning }) =>
      `${column === '*' ? 'any column' : column}: "${text}" means ${field === 'nothing' ? 'nothing' : `${field.replaceAll('_', ' ')} ${meaning}`}`,
  );

/**
 * `playworn words`: what the collection's texts mean; with a file, adds its words and settles with them what
 * waited for a meaning.
 */
export const words = async (file: string | undefined, { collection, json }: WordsOptions): Promise<void> => {
  const given = file === undefined ? [] : await wordsIn(file);
  await withCollection({ collection }, async ({ api }) => {
    const settled: SettledWords =
      given.length > 0 ? await api.words.set({ words: given }) : { cars: 0, sales: 0 };
    const { words: all } = await api.words.list();
    const waiting = await api.words.waiting();
    print(json, { added: given.length, settled, words: all, waiting }, shown => [
      ...lines({ words: shown.words }),
      ...(file === undefined
        ? []
        : [
            `${counted(shown.added, 'word')} added; ${counted(settled.cars, 'car')} and ${counted(settled.sales, 'sale record')} settled`,
          ]),
      `${counted(waiting.length, 'text waits', 'texts wait')} for a meaning`,
    ]);
  });
};
