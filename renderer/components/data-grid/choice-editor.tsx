import { Popover } from '@mantine/core';
import { type KeyboardEvent, useId, useState } from 'react';
import { ChoiceList } from '../inputs/choice-list.tsx';
import type { Choice } from '../inputs/choices.ts';
import { type ChoiceSource, useChoices } from '../inputs/use-choices.ts';
import classes from './data-grid.module.css';
import type { CellOutcome } from './parse-cell.ts';
import { beginEdit, type EditorProps, editKey } from './text-editor.tsx';

const asWritten = '\u0000as written';

const outcomeOf = (choice: Choice | undefined): CellOutcome | null => {
  if (!choice) return null;
  if (choice.value === asWritten) return { value: choice.label, choice: null };
  return { value: choice.value, choice };
};

/**
 * Finds a choice by typing, inside a cell. Enter or Tab takes the first that fits, even before the
 * search has answered.
 */
export const ChoiceEditor = ({
  label,
  text: initial,
  marked,
  source,
  freeText,
  means,
  onCommit,
  onCancel,
}: EditorProps & {
  source: ChoiceSource;
  freeText: boolean;
  means: ((text: string) => string | null) | undefined;
}) => {
  const id = useId();
  const [text, setText] = useState(initial);
  const [touched, setTouched] = useState(!marked);
  const [active, setActive] = useState<number | null>(null);
  const typed = touched ? text.trim() : '';
  const query = means?.(typed) ?? typed;
  const { choices: found, fresh } = useChoices(source, query, true);
  const exact = found.some(choice => choice.label.toLowerCase() === query.toLowerCase());
  const choices =
    freeText && query && !exact
      ? [...found, { value: asWritten, label: query, detail: 'as it is written' }]
      : found;
  const standing = choices.findIndex(choice => choice.label === initial);
  const current = active ?? (touched ? 0 : Math.max(0, standing));

  const outcome = (): CellOutcome | Promise<CellOutcome> => {
    const refusal: CellOutcome = { problem: `${label}: “${query}” is not known here` };
    if (touched && active === null && !fresh && typeof source === 'function')
      return source(query).then(
        late => outcomeOf(late[0]) ?? (freeText ? { value: query, choice: null } : refusal),
      );
    return outcomeOf(choices[current]) ?? refusal;
  };
  const take = (key: ReturnType<typeof editKey>) => {
    if (!touched && active === null) return onCommit(initial, { problem: '' }, key);
    if (query === '' && active === null) return onCommit('', { value: null, choice: null }, key);
    const settled = outcome();
    const shown =
      settled instanceof Promise || 'problem' in settled ? query : (choices[current]?.label ?? query);
    onCommit(shown, settled, key);
  };
  const press = (event: KeyboardEvent) => {
    event.stopPropagation();
    if (event.nativeEvent.isComposing) return;
    if (event.key === 'Escape') return onCancel();
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      const step = event.key === 'ArrowDown' ? 1 : -1;
      return setActive(Math.max(0, Math.min(choices.length - 1, current + step)));
    }
    const key = editKey(event);
    if (!key) return;
    event.preventDefault();
    take(key);
  };
  return (
    <Popover opened position="bottom-start" offset={3} trapFocus={false} withinPortal>
      <Popover.Target>
        <input
          className={classes.input}
          aria-label={label}
          role="combobox"
          aria-expanded
          aria-haspopup="listbox"
          aria-controls={`${id}list`}
          aria-activedescendant={choices[current] ? `${id}list-${current}` : undefined}
          aria-autocomplete="list"
          autoComplete="off"
          value={text}
          ref={element => beginEdit(element, marked)}
          onChange={event => {
            setText(event.currentTarget.value);
            setTouched(true);
            setActive(null);
          }}
          onKeyDown={press}
          onBlur={() => take(null)}
        />
      </Popover.Target>
      <Popover.Dropdown p={0} miw={220} maw={440}>
        <ChoiceList
          id={`${id}list`}
          label={label}
          choices={choices}
          active={current}
          onActive={setActive}
          onPick={choice => {
            const picked = outcomeOf(choice);
            if (picked) onCommit(choice.label, picked, 'Enter');
          }}
        />
      </Popover.Dropdown>
    </Popover>
  );
};
