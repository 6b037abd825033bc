import { Popover, TextInput } from '@mantine/core';
import { type KeyboardEvent, type ReactNode, useEffect, useId, useState } from 'react';
import { ChoiceList } from './choice-list.tsx';
import type { Choice } from './choices.ts';
import { comboboxProps } from './combobox-props.ts';
import { type ChoiceSource, useChoices } from './use-choices.ts';

/**
 * A field that finds by typing. `choices` is a list or a search (keep it stable); `onPick` gets the choice,
 * or with `freeText` also `{ value: text, label: text }` for what is in no list. Arrows walk, Enter and Tab
 * take, Escape puts back.
 */
export const TypeAhead = ({
  label,
  value,
  choices: source,
  onPick,
  onClear,
  freeText = false,
  placeholder,
  description,
  error,
  autoFocus,
  startOpen = false,
  disabled,
}: {
  label: string;
  /** The text of what is chosen now. */
  value: string;
  choices: ChoiceSource;
  onPick: (choice: Choice) => void;
  onClear?: () => void;
  freeText?: boolean;
  placeholder?: string;
  description?: ReactNode;
  error?: ReactNode;
  autoFocus?: boolean;
  /** Shows its choices as soon as it appears. */
  startOpen?: boolean;
  disabled?: boolean;
}) => {
  const id = useId();
  const [text, setText] = useState(value);
  const [open, setOpen] = useState(startOpen);
  const [typed, setTyped] = useState(false);
  const [active, setActive] = useState(0);
  useEffect(() => setText(value), [value]);
  const { choices, fresh } = useChoices(source, typed ? text : '', open);
  const [waiting, setWaiting] = useState(false);
  const close = () => {
    setOpen(false);
    setTyped(false);
    setActive(0);
    setWaiting(false);
  };
  const pick = (choice: Choice) => {
    close();
    setText(choice.label);
    onPick(choice);
  };
  /**
   * Takes what is typed when the field is left: the active choice, the free text, nothing, or
   * what it was before.
   */
  const settle = () => {
    const chosen = choices[active];
    const written = text.trim();
    if (!typed) return close();
    if (written === '' && onClear) {
      close();
      onClear();
    } else if (chosen && (!freeText || chosen.label.toLowerCase() === written.toLowerCase())) pick(chosen);
    else if (freeText && written) pick({ value: written, label: written });
    else {
      close();
      setText(value);
    }
  };
  const take = () => {
    const chosen = choices[active];
    if (chosen && (text.trim() !== '' || !typed)) pick(chosen);
    else settle();
  };
  // Enter pressed faster than the search answers is kept until it has.
  useEffect(() => {
    if (waiting && fresh) take();
  });
  const press = (event: KeyboardEvent) => {
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      if (!open) return setOpen(true);
      const step = event.key === 'ArrowDown' ? 1 : -1;
      setActive((active + step + choices.length) % Math.max(1, choices.length));
    } else if (event.key === 'Enter' && open) {
      event.preventDefault();
      if (fresh) take();
      else setWaiting(true);
    } else if (event.key === 'Escape' && open) {
      event.stopPropagation();
      close();
      setText(value);
    }
  };
  return (
    <Popover opened={open} position="bottom-start" offset={2} width="target" trapFocus={false} withinPortal>
      <Popover.Target>
        <TextInput
          label={label}
          description={description}
          error={error}
          placeholder={placeholder}
          autoFocus={autoFocus}
          data-autofocus={autoFocus || undefined}
          disabled={disabled}
          value={text}
          {...comboboxProps(id, open, choices[active] ? active : null)}
          onChange={event => {
            setText(event.currentTarget.value);
            setTyped(true);
            setOpen(true);
            setActive(0);
          }}
          onFocus={event => event.currentTarget.select()}
          onClick={() => setOpen(true)}
          onBlur={settle}
          onKeyDown={press}
        />
      </Popover.Target>
      <Popover.Dropdown p={0} miw={240}>
        <ChoiceList
          id={`${id}list`}
          label={label}
          choices={choices}
          active={active}
          onActive={setActive}
          onPick={pick}
          nothing={
            freeText && text.trim()
              ? `Enter takes “${text.trim()}” as it is`
              : fresh
                ? undefined
                : 'Searching …'
          }
        />
      </Popover.Dropdown>
    </Popover>
  );
};
