import { ActionIcon, Button, Menu } from '@mantine/core';
import { IconX } from '@tabler/icons-react';
import { useRef, useState } from 'react';
import type { UsedWord, WordRecord } from '../../../../electron/api/views.ts';
import { fieldName } from '../../../../valuation/wording/own-word-text.ts';
import { counted } from '../../../components/format.ts';
import type { Vocabulary } from '../../../components/own-words/meaning-choices.ts';
import { MeaningField } from '../../../components/own-words/meaning-field.tsx';
import { useWords } from '../../../components/words.ts';
import classes from '../settings.module.css';

const page = 100;

const usesText = ({ cars, sales }: UsedWord): string =>
  [cars > 0 ? counted(cars, 'car') : '', sales > 0 ? counted(sales, 'sale record') : '']
    .filter(Boolean)
    .join(', ');

/** Removes a word; where rows were read by it, after asking what becomes of them. */
const RemoveWord = ({
  word,
  onRemove,
}: {
  word: UsedWord;
  onRemove: (rows: 'stay' | 'wait again') => void;
}) => {
  const used = usesText(word);
  const icon = <IconX size={16} stroke={1.75} />;
  const label = `Remove “${word.text}”`;
  if (used === '')
    return (
      <ActionIcon aria-label={label} onClick={() => onRemove('stay')}>
        {icon}
      </ActionIcon>
    );
  return (
    <Menu position="bottom-end" width={280}>
      <Menu.Target>
        <ActionIcon aria-label={label}>{icon}</ActionIcon>
      </Menu.Target>
      <Menu.Dropdown>
        <Menu.Label>{used} read by it</Menu.Label>
        <Menu.Item onClick={() => onRemove('stay')}>Remove, and leave them as they were read</Menu.Item>
        <Menu.Item onClick={() => onRemove('wait again')}>Remove, and let them wait for a meaning</Menu.Item>
      </Menu.Dropdown>
    </Menu>
  );
};

/** The words, one a row, whose meanings are changed in place. */
export const WordRows = ({
  words,
  vocabulary,
  onChange,
  onRemove,
}: {
  words: readonly UsedWord[];
  vocabulary: Vocabulary;
  onChange: (word: Omit<WordRecord, 'addedAt'>) => void;
  /** What becomes of the rows that were read by it is asked where there are any. */
  onRemove: (word: UsedWord, rows: 'stay' | 'wait again') => void;
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
            <th scope="col" className={classes.uses}>
              Read by it
            </th>
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
              <td className={`soft ${classes.uses}`}>{usesText(word) || '–'}</td>
              <td>
                <RemoveWord word={word} onRemove={rows => onRemove(word, rows)} />
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
