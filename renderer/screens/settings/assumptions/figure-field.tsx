import { TextInput } from '@mantine/core';
import { type ReactNode, useId } from 'react';
import { useText } from '../../../components/inputs/use-text.ts';
import classes from './assumptions.module.css';
import { type FigureKind, figureText, readFigure } from './figures.ts';

const useFigure = (value: number, kind: FigureKind, onChange: (value: number) => void) => {
  const shown = figureText(value, kind);
  const { text, setText, problem, setProblem } = useText(shown);
  const settle = () => {
    if (text === shown) return setProblem(null);
    const read = readFigure(text, kind);
    if ('problem' in read) return setProblem(read.problem);
    setProblem(null);
    setText(figureText(read.value, kind));
    if (read.value !== value) onChange(read.value);
  };
  return { text, setText, problem, settle };
};

/** A bare figure for a cell of a table; `label` is for those who hear it. */
export const CellFigure = ({
  label,
  value,
  kind,
  onChange,
}: {
  label: string;
  value: number;
  kind: FigureKind;
  onChange: (value: number) => void;
}) => {
  const { text, setText, problem, settle } = useFigure(value, kind, onChange);
  return (
    <input
      className={classes.cellFigure}
      aria-label={label}
      aria-invalid={problem !== null}
      title={problem ?? undefined}
      inputMode="decimal"
      autoComplete="off"
      value={text}
      onChange={event => setText(event.currentTarget.value)}
      onFocus={event => event.currentTarget.select()}
      onBlur={settle}
      onKeyDown={event => {
        if (event.key === 'Enter') settle();
      }}
    />
  );
};

/** One assumption: what it means in a sentence at the left, its figure at the right. */
export const FigureField = ({
  label,
  help,
  value,
  kind,
  onChange,
}: {
  label: string;
  help?: ReactNode;
  value: number;
  kind: FigureKind;
  onChange: (value: number) => void;
}) => {
  const id = useId();
  const { text, setText, problem, settle } = useFigure(value, kind, onChange);
  return (
    <div className={classes.field}>
      <label htmlFor={id} className={classes.fieldName}>
        {label}
        {help ? <span className={classes.help}>{help}</span> : null}
      </label>
      <TextInput
        id={id}
        className={classes.fieldFigure}
        classNames={{ input: classes.figureInput }}
        value={text}
        error={problem}
        inputMode="decimal"
        autoComplete="off"
        rightSection={<span className={classes.unit}>{kind.unit}</span>}
        rightSectionWidth={kind.unit.length > 1 ? 48 : 28}
        onChange={event => setText(event.currentTarget.value)}
        onBlur={settle}
        onKeyDown={event => {
          if (event.key === 'Enter') settle();
        }}
      />
    </div>
  );
};
