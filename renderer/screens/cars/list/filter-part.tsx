import { Menu } from '@mantine/core';
import type { ReactNode } from 'react';
import classes from './filter.module.css';

export interface PartChoice {
  value: string;
  label: string;
  mark?: ReactNode;
  /** How many cars it would show. */
  cars: number;
}

const said = (labels: readonly string[]): string =>
  labels.length <= 2 ? labels.join(' or ') : `${labels.slice(0, 1).join()} or ${labels.length - 1} others`;

/** A word of the filter's sentence that opens its choices; several can be taken. */
export const FilterPartWord = ({
  label,
  any,
  choices,
  chosen,
  onChoose,
}: {
  /** What it narrows, for those who hear it. */
  label: string;
  /** What the sentence says while nothing is chosen. */
  any: string;
  choices: readonly PartChoice[];
  chosen: readonly string[];
  onChoose: (values: string[]) => void;
}) => {
  const labels = chosen.map(value => choices.find(choice => choice.value === value)?.label ?? value);
  return (
    <Menu position="bottom-start" closeOnItemClick={false}>
      <Menu.Target>
        <button
          type="button"
          className={classes.word}
          data-chosen={chosen.length > 0 || undefined}
          aria-label={`${label}: ${labels.join(' or ') || any}`}
        >
          {said(labels) || any}
        </button>
      </Menu.Target>
      <Menu.Dropdown className={classes.choices}>
        {choices.map(choice => (
          <Menu.CheckboxItem
            key={choice.value}
            checked={chosen.includes(choice.value)}
            rightSection={<span className={classes.count}>{choice.cars}</span>}
            onChange={on =>
              onChoose(on ? [...chosen, choice.value] : chosen.filter(value => value !== choice.value))
            }
          >
            <span className={classes.choice}>
              {choice.mark}
              {choice.label}
            </span>
          </Menu.CheckboxItem>
        ))}
        {chosen.length > 0 ? (
          <>
            <Menu.Divider />
            <Menu.Item closeMenuOnClick onClick={() => onChoose([])}>
              {any}
            </Menu.Item>
          </>
        ) : null}
      </Menu.Dropdown>
    </Menu>
  );
};
