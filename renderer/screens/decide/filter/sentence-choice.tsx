import { Menu } from '@mantine/core';
import type { ReactNode } from 'react';
import classes from './sentence.module.css';

export interface SentenceOption<Value extends string> {
  value: Value;
  label: ReactNode;
}

/** A word of the sentence that can be changed: a menu of what else it could say. Several can be ticked where `many`. */
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
  const role = many ? 'menuitemcheckbox' : 'menuitemradio';
  const item = (key: string, text: ReactNode, checked: boolean, run: () => void, stays: boolean) => (
    <Menu.Item
      key={key}
      role={role}
      aria-checked={checked}
      closeMenuOnClick={!stays}
      leftSection={<span className={classes.tick}>{checked ? '✓' : ''}</span>}
      onClick={run}
    >
      {text}
    </Menu.Item>
  );
  return (
    <Menu position="bottom-start" offset={2} middlewares={{ flip: true, shift: true }}>
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
        {item('', anyWord, chosen.length === 0, () => onChange([]), false)}
        <Menu.Divider />
        {options.map(({ value, label: text }) => {
          const checked = chosen.includes(value);
          const without = chosen.filter(word => word !== value);
          return item(
            value,
            text,
            checked,
            () => onChange(many ? (checked ? without : [...chosen, value]) : [value]),
            many,
          );
        })}
      </Menu.Dropdown>
    </Menu>
  );
};
