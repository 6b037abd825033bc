import { NativeSelect } from '@mantine/core';
import { type ReactNode, useRef, useState } from 'react';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { fieldName, type Meaning } from '../../../valuation/wording/own-word-text.ts';
import { useWords } from '../words.ts';
import type { Vocabulary } from './meaning-choices.ts';
import { MeaningField } from './meaning-field.tsx';
import classes from './own-words.module.css';

/** A text that is not understood, once for all its rows. */
export interface AskedWord {
  column: string;
  text: string;
  /** The field that it is most likely about; '' where nobody can tell. */
  field: string;
  /** A meaning that is near; '' where it is asked without one. */
  meaning: string;
  /** In how many rows it stands. */
  rows: number;
  /** Where: "lines 4, 7", or a link to the cars. */
  where: ReactNode;
  /** Texts of the column, where all of them are asked about at once (`*`). */
  examples?: readonly string[];
}

/** What was said of a text. */
export interface WordAnswer extends Meaning {
  column: string;
  text: string;
}

export const wordKey = ({ column, text }: { column: string; text: string }): string =>
  JSON.stringify([column, text].map(one => one.trim().toLowerCase()));

const fieldChoices = [
  'grade',
  'finish_state',
  'casting',
  'release_name',
  'release_year',
  ...Object.values(featureColumns),
  'missing_parts',
  'reproduction_parts',
  'location',
];

const byColumn = (words: readonly AskedWord[]): [string, AskedWord[]][] => {
  const groups = new Map<string, AskedWord[]>();
  for (const word of words) groups.set(word.column, [...(groups.get(word.column) ?? []), word]);
  return [...groups];
};

interface Ask {
  vocabulary: Vocabulary;
  onAnswer: (answer: WordAnswer) => void;
}

const Row = ({
  word,
  answered,
  isLater,
  onLater,
  onMove,
  vocabulary,
  onAnswer,
}: Ask & {
  word: AskedWord;
  answered: Meaning | null;
  isLater: boolean;
  onLater: () => void;
  onMove: (from: Element | null, step: 1 | -1) => void;
}) => {
  const { locale } = useWords();
  const [chosen, setChosen] = useState<string | null>(null);
  const row = useRef<HTMLTableRowElement>(null);
  const field = chosen ?? answered?.field ?? word.field;
  const isScale = word.field === 'grade_scale';
  const listed = fieldChoices.includes(field) || field === '' ? fieldChoices : [field, ...fieldChoices];
  const proposed =
    word.meaning !== '' && field === word.field ? { field: word.field, meaning: word.meaning } : null;
  return (
    <tr ref={row} data-state={answered ? 'answered' : isLater ? 'later' : undefined}>
      <th scope="row">{word.examples ? `${word.examples.join(', ')} …` : word.text}</th>
      <td className={classes.count}>{word.rows.toLocaleString()}</td>
      <td className={classes.where}>{word.where}</td>
      <td>
        {isScale ? (
          fieldName('grade_scale', locale)
        ) : (
          <NativeSelect
            aria-label={`What “${word.text}” is about`}
            value={field}
            data={[
              ...(field === '' ? [{ value: '', label: '–' }] : []),
              ...listed.map(value => ({ value, label: fieldName(value, locale) })),
            ]}
            onChange={event => setChosen(event.currentTarget.value)}
          />
        )}
      </td>
      <td>
        <MeaningField
          key={field}
          field={field}
          text={word.text}
          label={`What “${word.text}” means`}
          proposed={isLater ? null : proposed}
          answered={answered}
          vocabulary={vocabulary}
          onMove={step => onMove(row.current, step)}
          onAnswer={meaning => {
            if (meaning) onAnswer({ column: word.column, text: word.text, ...meaning });
            else onLater();
          }}
        />
      </td>
      <td className={classes.mark}>{answered ? '✓' : isLater ? 'later' : proposed ? '↵' : ''}</td>
    </tr>
  );
};

/**
 * Asks what texts mean, column by column; one answer holds for all rows. What is answered stays in its place,
 * to be changed. Nothing has to be answered.
 */
export const AskWords = ({
  words,
  answers,
  vocabulary,
  onAnswer,
  compact = false,
}: Ask & {
  compact?: boolean;
  words: readonly AskedWord[];
  /** By `wordKey`. */
  answers: ReadonlyMap<string, Meaning>;
}) => {
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const table = useRef<HTMLTableElement>(null);
  const move = (from: Element | null, step: 1 | -1) => {
    const fields = [...(table.current?.querySelectorAll<HTMLElement>('[data-meaning-field]') ?? [])];
    const at = fields.findIndex(field => from?.contains(field));
    fields[at + step]?.focus();
  };
  if (words.length === 0) return null;
  return (
    <table ref={table} className={classes.asked} data-compact={compact || undefined}>
      <thead>
        <tr>
          <th scope="col">Text</th>
          <th scope="col" className={classes.count}>
            Rows
          </th>
          <th scope="col">Where</th>
          <th scope="col">Is about</th>
          <th scope="col">Means</th>
          <td />
        </tr>
      </thead>
      {byColumn(words).map(([column, ofColumn]) => (
        <tbody key={column}>
          <tr className={classes.columnHead}>
            <th scope="rowgroup" colSpan={6}>
              {column}
            </th>
          </tr>
          {ofColumn.map(word => {
            const key = wordKey(word);
            return (
              <Row
                key={key}
                word={word}
                answered={answers.get(key) ?? null}
                isLater={left.has(key)}
                onLater={() => setLeft(before => new Set(before).add(key))}
                onMove={move}
                vocabulary={vocabulary}
                onAnswer={answer => {
                  setLeft(before => new Set([...before].filter(one => one !== key)));
                  onAnswer(answer);
                }}
              />
            );
          })}
        </tbody>
      ))}
    </table>
  );
};
