import { ActionIcon, Button } from '@mantine/core';
import { IconX } from '@tabler/icons-react';
import { useRef, useState } from 'react';
import type { WordRecord } from '../../../../electron/api/views.ts';
import { fieldName } from '../../../../valuation/wording/own-word-text.ts';
import type { Vocabulary } from '../../../components/own-words/meaning-choices.ts';
import { MeaningField } from '../../../components/own-words/meaning-field.tsx';
import { useWords } from '../../../components/words.ts';
import classes from '../settings.module.css';

const page = 100;

/** The words, one a row, whose meanings are changed in place. */
export const WordRows = ({
  words,
  vocabulary,
  onChange,
  onRemove,
}: {
  words: readonly WordRecord[];
  vocabulary: Vocabulary;
  onChange: (word: Omit<WordRecord, 'addedAt'>) => void;
  onRemove: (word: WordRecord) => void;
}) => {
  const { locale } = useWords();
  const [most, setMost] = useState(page);
  const table = useRef<HTMLTableElement>(null);
  if (words.length === 0) return null;
  const move = (from: number, step: number) =>
    table.current?.querySelectorAll<HTMLElement>('[data-meaning-field]')[from + step]?.focus();
  return (
    <>
      <table ref={table} className={classes.words}>
        <thead>
          <tr>
            <th scope="col">Column</th>
            <th scope="col">Text</th>
            <th scope="col">Is about</th>
            <th scope="col">Means</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {words.slice(0, most).map((word, at) => (
            <tr key={word.id}>
              <td className="soft">{word.column === '*' ? 'any' : word.column}</td>
              <th scope="row">{word.text === '*' ? 'every text' : word.text}</th>
              <td>{fieldName(word.field, locale)}</td>
              <td>
                <MeaningField
                  field={word.field}
                  text={word.text}
                  label={`What “${word.text}” means`}
                  proposed={null}
                  answered={word}
                  vocabulary={vocabulary}
                  onMove={step => move(at, step)}
                  onAnswer={meaning => {
                    const { id, column, text } = word;
                    if (meaning) onChange({ id, column, text, ...meaning });
                  }}
                />
              </td>
              <td>
                <ActionIcon aria-label={`Remove “${word.text}”`} onClick={() => onRemove(word)}>
                  <IconX size={16} stroke={1.75} />
                </ActionIcon>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {words.length > most ? (
        <Button variant="subtle" onClick={() => setMost(most + page)}>
          Show more of the {words.length.toLocaleString()}
        </Button>
      ) : null}
    </>
  );
};
