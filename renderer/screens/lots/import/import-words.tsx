import { useState } from 'react';
import type { ImportPreview } from '../../../../electron/api/views.ts';
import type { Meaning } from '../../../../valuation/wording/own-word-text.ts';
import { Section } from '../../../components/layout/section.tsx';
import { AskHelp } from '../../../components/own-words/ask-help.tsx';
import { type AskedWord, AskWords, wordKey } from '../../../components/own-words/ask-words.tsx';
import { mergedAsked } from '../../../components/own-words/merge-asked.ts';
import { useSayMeaning, useVocabulary } from '../../../components/own-words/use-own-words.ts';

const mostLines = 5;

/** "lines 4, 7 and 9"; "lines 4, 5, 6, 7, 8 and 12 more". */
const linesText = (lines: readonly number[], count: number): string => {
  const shown = lines.slice(0, mostLines);
  const more = count - shown.length;
  const last = more > 0 ? `${more.toLocaleString()} more` : shown.pop();
  return `${count === 1 ? 'line' : 'lines'} ${shown.length > 0 ? `${shown.join(', ')} and ` : ''}${last}`;
};

/** Where the scale of a column is asked, the figures that it would explain are not asked one by one. */
const withoutScaled = (texts: ImportPreview['notUnderstood']): ImportPreview['notUnderstood'] => {
  const scaled = new Set(texts.flatMap(({ column, text }) => (text === '*' ? [column] : [])));
  return texts.filter(
    ({ column, text, field }) =>
      text === '*' || field !== 'grade' || !scaled.has(column) || !/^[\d★⭐]/u.test(text),
  );
};

/** Days and amounts that the file itself does not tell are asked for their column, not one by one. */
const withoutQuestions = ({ notUnderstood, questions }: ImportPreview): ImportPreview['notUnderstood'] => {
  const asked = new Set(questions.map(({ column, kind }) => `${column} ${kind}`));
  const isBare = (text: string) => /^\d[\d.,' ]*$/.test(text);
  return notUnderstood.filter(
    ({ column, text, field }) =>
      !asked.has(`${column} ${field.endsWith('_on') ? 'dates' : 'decimal'}`) &&
      !(isBare(text) && asked.has(`${column} currency`)),
  );
};

const askedOf = (preview: ImportPreview): AskedWord[] =>
  withoutScaled(withoutQuestions(preview)).map(({ column, text, field, meaning, count, lines }) => ({
    column,
    text,
    field,
    meaning,
    rows: count,
    where: linesText(lines, count),
    ...(text === '*' && {
      examples: preview.columns.find(({ heading }) => heading === column)?.samples.slice(0, 4) ?? [],
    }),
  }));

/** Asks what the texts mean that no row can be read with; the rows are read again with each answer. */
export const ImportWords = ({ preview }: { preview: ImportPreview }) => {
  const [asked, setAsked] = useState<readonly AskedWord[]>([]);
  const [said, setSaid] = useState<ReadonlyMap<string, Meaning>>(new Map());
  const [seen, setSeen] = useState<ImportPreview | null>(null);
  const vocabulary = useVocabulary();
  const say = useSayMeaning();
  const now = askedOf(preview);
  if (seen !== preview) {
    setSeen(preview);
    setAsked(mergedAsked(asked, now, said));
  }
  const waiting = new Set(now.map(wordKey));
  // An answer that was undone is asked again.
  const answers = new Map([...said].filter(([key]) => !waiting.has(key)));
  if (asked.length === 0) return null;
  return (
    <Section
      title={now.length === 0 ? 'All of this is understood now' : 'Not understood yet'}
      aside="None of it has to be answered before the import"
    >
      <AskHelp />
      <AskWords
        words={asked}
        answers={answers}
        vocabulary={vocabulary}
        onAnswer={answer => {
          const { field, meaning } = answer;
          setSaid(before => new Map(before).set(wordKey(answer), { field, meaning }));
          say.mutate([answer]);
        }}
      />
    </Section>
  );
};
