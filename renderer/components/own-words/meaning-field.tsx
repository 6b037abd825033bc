import { Popover } from '@mantine/core';
import { type KeyboardEvent, useId, useState } from 'react';
import { type Meaning, meaningValue } from '../../../valuation/wording/own-word-text.ts';
import { ChoiceList } from '../inputs/choice-list.tsx';
import { comboboxProps } from '../inputs/combobox-props.ts';
import { useWords } from '../words.ts';
import { meaningChoices, meaningOf, type Vocabulary } from './meaning-choices.ts';
import classes from './own-words.module.css';

/**
 * Where what a text means is said by typing. A meaning that is near stands in it, to be confirmed by Enter;
 * the arrows walk the choices, or from field to field where none are shown.
 */
export const MeaningField = ({
  field,
  text: askedText,
  label,
  proposed,
  answered,
  vocabulary,
  onAnswer,
  onMove,
}: {
  field: string;
  text: string;
  label: string;
  proposed: Meaning | null;
  answered: Meaning | null;
  vocabulary: Vocabulary;
  /** null leaves it for later. */
  onAnswer: (meaning: Meaning | null) => void;
  onMove: (step: 1 | -1) => void;
}) => {
  const id = useId();
  const { locale } = useWords();
  const [typed, setTyped] = useState<string | null>(null);
  const [open, setOpen] = useState(false);
  const [active, setActive] = useState(0);
  const [problem, setProblem] = useState(false);
  const standing = answered ?? proposed;
  const shown = typed ?? (standing ? meaningValue(standing, locale) : '');
  const choices = meaningChoices({ field, text: askedText }, typed ?? '', vocabulary, locale);
  const close = () => {
    setOpen(false);
    setTyped(null);
    setActive(0);
    setProblem(false);
  };
  const give = (meaning: Meaning | null) => {
    close();
    onMove(1);
    onAnswer(meaning);
  };
  const take = () => {
    const chosen = open ? choices[active] : undefined;
    if (typed === null && !open) {
      if (answered || !proposed) return onMove(1);
      return give(proposed);
    }
    if (chosen && (typed?.trim() || typed === null)) return give(meaningOf(chosen));
    if (typed?.trim()) return setProblem(true);
    close();
    onMove(1);
  };
  const press = (event: KeyboardEvent) => {
    if (event.nativeEvent.isComposing) return;
    if (event.key === 'Enter') {
      event.preventDefault();
      take();
    } else if (event.key === 'Escape' && (open || typed !== null)) {
      event.stopPropagation();
      close();
    } else if (event.key === 'ArrowDown' && event.altKey) {
      event.preventDefault();
      setOpen(true);
    } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      const step = event.key === 'ArrowDown' ? 1 : -1;
      if (!open) onMove(step);
      else setActive((active + step + choices.length) % Math.max(1, choices.length));
    }
  };
  return (
    <Popover opened={open} position="bottom-start" offset={2} trapFocus={false} withinPortal>
      <Popover.Target>
        <input
          className={classes.field}
          aria-label={label}
          aria-invalid={problem || undefined}
          data-state={typed === null ? (answered ? 'answered' : proposed ? 'proposed' : undefined) : 'typed'}
          data-meaning-field
          {...comboboxProps(id, open, choices[active] ? active : null)}
          spellCheck={false}
          placeholder="what does it mean?"
          value={shown}
          onChange={event => {
            setTyped(event.currentTarget.value);
            setOpen(true);
            setActive(0);
            setProblem(false);
          }}
          onFocus={event => event.currentTarget.select()}
          onClick={() => setOpen(true)}
          onBlur={close}
          onKeyDown={press}
        />
      </Popover.Target>
      <Popover.Dropdown p={0} miw={280} maw={460}>
        <ChoiceList
          id={`${id}list`}
          label={label}
          choices={choices}
          active={active}
          onActive={setActive}
          onPick={choice => give(meaningOf(choice))}
          nothing="Nothing of that name; choose what the text is about first"
        />
      </Popover.Dropdown>
    </Popover>
  );
};
