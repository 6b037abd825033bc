import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { saveCsv } from '../../../components/files/save-file.ts';
import { useFilePicker } from '../../../components/files/use-file-picker.tsx';
import { FindField } from '../../../components/inputs/find-field.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { showProblem } from '../../../components/notices/undo-notice.tsx';
import { settledText, useSayMeaning, useVocabulary } from '../../../components/own-words/use-own-words.ts';
import classes from '../settings.module.css';
import { NewWord } from './new-word.tsx';
import { WordRows } from './word-rows.tsx';
import { wordsFromCsv, wordsToCsv } from './words-file.ts';

const many = 12;

/** What the owner's texts mean: a table that imports, grids and the search go by. */
export const WordsSection = () => {
  const { data } = useQuery({ queryKey: ['words'], queryFn: () => api.words.list() });
  const vocabulary = useVocabulary();
  const say = useSayMeaning();
  const [filter, setFilter] = useState('');
  const change = useAction(
    (word: Parameters<typeof api.words.set>[0]['words'][number]) => api.words.set({ words: [word] }),
    {
      label: ({ text }, read) => `What “${text}” means was changed${settledText(read, 'read again')}`,
    },
  );
  const remove = useAction(
    ({ id, rows }: { id: number; text: string; rows: 'stay' | 'wait again' }) =>
      api.words.remove({ ids: [id], rows }),
    { label: ({ text }, read) => `“${text}” removed from your words${settledText(read, 'waiting again')}` },
  );
  const words = data?.words ?? [];
  const wanted = filter.trim().toLowerCase();
  const shown = words.filter(word =>
    [word.column, word.text, word.field, word.meaning].some(text => text.toLowerCase().includes(wanted)),
  );
  const take = async (chosen: File) => {
    const papa = (await import('papaparse')).default;
    const { words: read, problems } = wordsFromCsv(papa, await chosen.text());
    if (problems.length > 0)
      showProblem(
        `${problems.length === 1 ? 'A line' : `${problems.length} lines`} of ${chosen.name} could not be imported`,
        problems.slice(0, 3).join(' '),
      );
    if (read.length > 0) say.mutate(read);
  };
  const file = useFilePicker({
    label: 'File of words',
    accept: '.csv,text/csv',
    onFiles: ([chosen]) => void take(chosen),
  });
  return (
    <Section id="words" title="Your words" aside="what you write, and what it means">
      <p className={classes.lead}>
        Imports, grids and the search go by these.{' '}
        <Link href="~/not-understood">Texts that wait for a meaning</Link> are asked about on their own page.
        A new meaning also applies to the rows that were read by the word; when you remove a word, you are
        asked what happens to them. What was entered by hand stays.
      </p>
      {data ? (
        <>
          {words.length > many ? (
            <FindField label="Find among your words" value={filter} onChange={setFilter} />
          ) : null}
          <WordRows
            words={shown}
            vocabulary={vocabulary}
            onChange={word => change.mutate(word)}
            onRemove={({ id, text }, rows) => remove.mutate({ id, text, rows })}
          />
          {words.length === 0 ? (
            <p className="soft">None yet: they come by answering what an import asks, or are added here.</p>
          ) : null}
          <NewWord vocabulary={vocabulary} fields={data.fields} onAdd={word => say.mutate([word])} />
          <p className={classes.files}>
            <Button
              disabled={words.length === 0}
              onClick={async () =>
                saveCsv(wordsToCsv((await import('papaparse')).default, words), 'your-words.csv')
              }
            >
              Save as CSV
            </Button>
            <Button onClick={file.choose}>Import words from a CSV file</Button>
            {file.field}
          </p>
        </>
      ) : (
        <LoadingState part />
      )}
    </Section>
  );
};
