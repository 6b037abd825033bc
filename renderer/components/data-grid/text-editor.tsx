import { type KeyboardEvent, useState } from 'react';
import type { EditKey } from './cursor.ts';
import classes from './data-grid.module.css';
import type { CellOutcome } from './parse-cell.ts';

export interface EditorProps {
  label: string;
  /** What the editor begins with, and whether that is all marked, so that typing replaces it. */
  text: string;
  marked: boolean;
  parse: (text: string) => CellOutcome;
  onCommit: (text: string, outcome: CellOutcome | Promise<CellOutcome>, key: EditKey | null) => void;
  onCancel: () => void;
}

/** Puts the cursor into an editor when it appears. */
export const beginEdit = (input: HTMLInputElement | null, marked: boolean): void => {
  if (!input || document.activeElement === input) return;
  input.focus({ preventScroll: true });
  if (marked) input.select();
};

/** The key that settles an edit, as the cursor understands it. */
export const editKey = (event: KeyboardEvent): EditKey | null => {
  if (event.key !== 'Enter' && event.key !== 'Tab') return null;
  return event.shiftKey ? `Shift+${event.key}` : event.key;
};

/** A text or number being typed into a cell; what cannot be read keeps the editor open and says why. */
export const TextEditor = ({ label, text: initial, marked, parse, onCommit, onCancel }: EditorProps) => {
  const [text, setText] = useState(initial);
  const [problem, setProblem] = useState<string | null>(null);
  const press = (event: KeyboardEvent) => {
    event.stopPropagation();
    if (event.nativeEvent.isComposing) return;
    if (event.key === 'Escape') return onCancel();
    const key = editKey(event);
    if (!key) return;
    event.preventDefault();
    const outcome = parse(text);
    if ('problem' in outcome) setProblem(outcome.problem);
    else onCommit(text.trim(), outcome, key);
  };
  return (
    <>
      <input
        className={classes.input}
        aria-label={label}
        aria-invalid={problem ? true : undefined}
        value={text}
        ref={element => beginEdit(element, marked)}
        onChange={event => {
          setText(event.currentTarget.value);
          setProblem(null);
        }}
        onKeyDown={press}
        onBlur={() => onCommit(text.trim(), parse(text), null)}
      />
      {problem ? (
        <span className={classes.problem} role="alert">
          {problem}
        </span>
      ) : null}
    </>
  );
};
