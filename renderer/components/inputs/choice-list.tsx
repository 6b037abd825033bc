import { useEffect, useRef } from 'react';
import type { Choice } from './choices.ts';
import classes from './inputs.module.css';

/** The list beneath a type-ahead field; the field keeps the focus and points at the active choice. */
export const ChoiceList = ({
  id,
  choices,
  active,
  onActive,
  onPick,
  nothing = 'Nothing found',
  label,
}: {
  id: string;
  choices: readonly Choice[];
  active: number;
  onActive: (index: number) => void;
  onPick: (choice: Choice) => void;
  nothing?: string;
  label: string;
}) => {
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    list.current?.children[active]?.scrollIntoView({ block: 'nearest' });
  }, [active]);
  return (
    <div ref={list} id={id} className={classes.list} role="listbox" aria-label={label} tabIndex={-1}>
      {choices.map((choice, index) => (
        <div
          key={choice.value}
          id={`${id}-${index}`}
          className={classes.choice}
          role="option"
          aria-selected={index === active}
          tabIndex={-1}
          onPointerMove={() => onActive(index)}
          onPointerDown={event => {
            // The field must not lose the focus to the list.
            event.preventDefault();
            onPick(choice);
          }}
        >
          {choice.mark}
          <span className={classes.choiceLabel}>{choice.label}</span>
          {choice.detail ? <span className={classes.choiceDetail}>{choice.detail}</span> : null}
        </div>
      ))}
      {choices.length === 0 ? <div className={classes.nothing}>{nothing}</div> : null}
    </div>
  );
};
