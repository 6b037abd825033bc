import { Menu } from '@mantine/core';
import type { ReactNode } from 'react';
import classes from './sentence.module.css';

const tick = (
  <span className={classes.tick} aria-hidden="true">
    ✓
  </span>
);

export interface SentenceOption<Value extends string> {
  value: Value;
  label: ReactNode;
}

/**
 * A word of the sentence that can be changed: a menu of what else it could say. Several can be
 * ticked where `many`.
 */
export const SentenceChoice = <Value extends string>({
  label,
  says,
  anyWord,
  options,
  chosen,
  many = false,
  onChange,
}: {
  /** What is chosen here, for those who hear it: "Lot". */
  label: string;
  /** What stands in the sentence now. */
  says: string;
  /** What it says when nothing is narrowed: "any lot". */
  anyWord: string;
  options: readonly SentenceOption<Value>[];
  chosen: readonly Value[];
  many?: boolean;
  onChange: (chosen: Value[]) => void;
}) => {
  return (
    <Menu
      withInitialFocusPlaceholder={false}
      position="bottom-start"
      offset={2}
      middlewares={{ flip: true, shift: true }}
    >
      <Menu.Target>
        <button
          type="button"
          className={classes.choice}
          aria-label={`${label}: ${says}`}
          data-narrows={chosen.length > 0 || undefined}
        >
          {says}
          <span className={classes.caret} aria-hidden="true">
            ▾
          </span>
        </button>
      </Menu.Target>
      <Menu.Dropdown className={classes.menu}>
        <Menu.RadioItem
          className={classes.any}
          value=""
          checked={chosen.length === 0}
          checkIcon={tick}
          closeMenuOnClick
          onChange={() => onChange([])}
        >
          {anyWord}
        </Menu.RadioItem>
        {options.map(({ value, label: text }) =>
          many ? (
            <Menu.CheckboxItem
              key={value}
              checked={chosen.includes(value)}
              checkIcon={tick}
              onChange={checked =>
                onChange(checked ? [...chosen, value] : chosen.filter(word => word !== value))
              }
            >
              {text}
            </Menu.CheckboxItem>
          ) : (
            <Menu.RadioItem
              key={value}
              value={value}
              checked={chosen.includes(value)}
              checkIcon={tick}
              closeMenuOnClick
              onChange={() => onChange([value])}
            >
              {text}
            </Menu.RadioItem>
          ),
        )}
      </Menu.Dropdown>
    </Menu>
  );
};
