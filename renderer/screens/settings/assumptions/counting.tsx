import { Button, Radio, Select, TextInput } from '@mantine/core';
import { useState } from 'react';
import { gradeLabel, grades, type IndexName, indexNames } from '../../../../valuation/words.ts';
import { TimeUsedNote } from '../../../components/evidence/time-used.tsx';
import classes from './assumptions.module.css';
import type { PartOfDraft } from './draft.ts';
import { CellFigure, FigureField } from './figure-field.tsx';
import { percent, spread, years } from './figures.ts';

/** Sources that the engine itself names; the owner's own can be removed again. */
const standing = ['own sale', 'own purchase', 'other'];

export const Sources = ({ draft, set }: PartOfDraft) => {
  const [name, setName] = useState('');
  const { sourceReliability } = draft;
  const add = () => {
    const source = name.trim();
    if (!source || source in sourceReliability) return;
    set({ sourceReliability: { ...sourceReliability, [source]: sourceReliability.other ?? 0.7 } });
    setName('');
  };
  return (
    <div>
      <table className={classes.cells}>
        <caption>
          How far a sale is trusted, %; “own purchase” is what you paid, “listing” also “asking” and “asking
          price”; other names count as “other”
        </caption>
        <tbody>
          {Object.entries(sourceReliability).map(([source, value]) => (
            <tr key={source}>
              <th scope="row">{source}</th>
              <td>
                <CellFigure
                  label={`Trust in ${source}, percent`}
                  value={value}
                  kind={percent}
                  onChange={next => set({ sourceReliability: { ...sourceReliability, [source]: next } })}
                />
              </td>
              <td className={classes.drop}>
                {standing.includes(source) ? null : (
                  <Button
                    variant="subtle"
                    size="compact-xs"
                    aria-label={`Remove the source ${source}`}
                    onClick={() => {
                      const { [source]: _, ...rest } = sourceReliability;
                      set({ sourceReliability: rest });
                    }}
                  >
                    Remove
                  </Button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <form
        className={classes.addSource}
        onSubmit={event => {
          event.preventDefault();
          add();
        }}
      >
        <TextInput
          aria-label="Another source"
          placeholder="Another source"
          maxLength={40}
          value={name}
          onChange={event => setName(event.currentTarget.value)}
        />
        <Button type="submit" disabled={!name.trim() || name.trim() in sourceReliability}>
          Add
        </Button>
      </form>
    </div>
  );
};

/** How much evidence counts: a sale record by its age, its grade and what is not known of it. */
export const Weights = ({ draft, set }: PartOfDraft) => (
  <div>
    <FigureField
      label="A sale counts half after"
      value={draft.halfLifeYears}
      kind={years}
      onChange={halfLifeYears => set({ halfLifeYears })}
    />
    <FigureField
      label="A sale counts half at a distance of"
      help="grades between it and the car"
      value={draft.gradeDistanceHalf}
      kind={{ ...spread, unit: 'grades', least: 0.1, most: 100, digits: 1 }}
      onChange={gradeDistanceHalf => set({ gradeDistanceHalf })}
    />
    <FigureField
      label="Widest estimate for a value to be given"
      help="its high end by its low end, before what single sales vary; with the spreads assumed below"
      value={draft.widestEstimate ?? 8}
      kind={{ ...spread, unit: 'times', least: 1, most: 1000, digits: 1 }}
      onChange={widestEstimate => set({ widestEstimate })}
    />
    <FigureField
      label="What you believe counts as"
      help="records overrule it as they come; a range wider than sales vary counts less; 0 leaves beliefs out"
      value={draft.beliefSales ?? 1}
      kind={{ ...spread, unit: 'sales', most: 100, digits: 1 }}
      onChange={beliefSales => set({ beliefSales })}
    />
    <div className={classes.field}>
      <span className={classes.fieldName}>Treat an ungraded sale or car as</span>
      <Select
        aria-label="Treat an ungraded sale or car as"
        className={classes.fieldFigure}
        value={String(draft.unknownGrade)}
        data={grades.map(grade => ({ value: String(grade), label: gradeLabel(grade) }))}
        allowDeselect={false}
        onChange={grade => set({ unknownGrade: Number(grade) })}
      />
    </div>
  </div>
);

const indexChoices = [
  {
    value: 'records',
    label: 'As your own records say',
    help: 'As they were, by one trend, or by changes from year to year: whichever estimates your latest sales best from those before them.',
  },
  {
    value: 'none',
    label: 'As they were',
    help: 'Old prices are used as they were; they only count less with age.',
  },
  {
    value: 'cpi-u',
    label: 'By consumer prices in the United States',
    help: 'CPI-U, yearly averages, all urban consumers, as published by the Bureau of Labor Statistics.',
  },
  {
    value: 'trend',
    label: 'By the trend of your own records',
    help: 'Used once there are 40 records over 3 years; until then, prices stay as they were.',
  },
  {
    value: 'steps',
    label: 'By changes from year to year',
    help: 'For a market that rises and falls again. Used once there are 40 records over 3 years.',
  },
];
const isIndexName = (value: string): value is IndexName => indexNames.some(name => name === value);

/** How old prices are brought to the effective date. */
export const IndexChoice = ({ draft, set }: PartOfDraft) => (
  <Radio.Group
    aria-label="Old prices are taken"
    value={typeof draft.index === 'string' ? draft.index : 'series'}
    onChange={value => {
      if (isIndexName(value)) set({ index: value });
    }}
  >
    <div className={classes.choices}>
      {indexChoices.map(({ value, label, help }) => (
        <Radio key={value} value={value} label={label} description={help} />
      ))}
      {typeof draft.index === 'string' ? null : (
        <Radio value="series" label="By a series of your own" description="As imported." />
      )}
    </div>
    <TimeUsedNote className={classes.lead} />
  </Radio.Group>
);
