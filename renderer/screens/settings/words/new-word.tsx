import { NativeSelect, TextInput } from '@mantine/core';
import { useId, useRef, useState } from 'react';
import { fieldName, type Meaning } from '../../../../valuation/wording/own-word-text.ts';
import type { WordAnswer } from '../../../components/own-words/ask-words.tsx';
import type { Vocabulary } from '../../../components/own-words/meaning-choices.ts';
import { MeaningField } from '../../../components/own-words/meaning-field.tsx';
import { useWords } from '../../../components/words.ts';
import classes from '../settings.module.css';

/** A word to be added: saved once its meaning is taken. */
export const NewWord = ({
  vocabulary,
  fields,
  onAdd,
}: {
  vocabulary: Vocabulary;
  fields: readonly string[];
  onAdd: (word: WordAnswer) => void;
}) => {
  const { locale } = useWords();
  const meaningId = useId();
  const [text, setText] = useState('');
  const [column, setColumn] = useState('');
  const [field, setField] = useState('grade');
  const textField = useRef<HTMLInputElement>(null);
  const add = (meaning: Meaning | null) => {
    if (!meaning || !text.trim()) return textField.current?.focus();
    onAdd({ column: column.trim() || '*', text: text.trim(), ...meaning });
    setText('');
    textField.current?.focus();
  };
  return (
    <div className={classes.newWord}>
      <TextInput
        ref={textField}
        label="Add a text"
        placeholder="beater"
        maxLength={200}
        value={text}
        onChange={event => setText(event.currentTarget.value)}
      />
      <TextInput
        label="In the column"
        placeholder="any"
        maxLength={200}
        value={column}
        onChange={event => setColumn(event.currentTarget.value)}
      />
      <NativeSelect
        label="Is about"
        value={field}
        data={fields
          .filter(name => name !== 'nothing')
          .map(value => ({ value, label: fieldName(value, locale) }))}
        onChange={event => setField(event.currentTarget.value)}
      />
      <div>
        <span id={meaningId} className={classes.newLabel}>
          Means
        </span>
        <MeaningField
          key={field}
          field={field}
          text={text}
          label="Means"
          proposed={null}
          answered={null}
          vocabulary={vocabulary}
          onMove={() => undefined}
          onAnswer={add}
        />
      </div>
    </div>
  );
};
