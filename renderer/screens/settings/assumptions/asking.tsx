import { Checkbox, Select } from '@mantine/core';
import type { AssumptionSet } from '../../../../valuation/types.ts';
import { gradeLabel, grades, rarities } from '../../../../valuation/words.ts';
import { MoneyInput } from '../../../components/inputs/money-input.tsx';
import classes from './assumptions.module.css';
import { FigureField } from './figure-field.tsx';
import { percent } from './figures.ts';
import type { PartOfDraft } from './part-of-draft.ts';

type Asked = AssumptionSet['decision'];

/** What the owner asks before any work is recommended. */
export const Asking = ({ draft, set, currency }: PartOfDraft) => {
  const { decision } = draft;
  const ask = (change: Partial<Asked>) => set({ decision: { ...decision, ...change } });
  return (
    <div>
      <div className={classes.field}>
        <span className={classes.fieldName}>
          Least gain worth any work
          <span className={classes.help}>expected, over leaving the car as it is</span>
        </span>
        <div className={classes.fieldFigure}>
          <MoneyInput
            label={<span className={classes.heard}>Least gain worth any work</span>}
            currency={currency}
            value={decision.leastGain}
            onChange={leastGain => ask({ leastGain: leastGain ?? 0 })}
          />
        </div>
      </div>
      <FigureField
        label="Least probability that it pays"
        value={decision.leastProbability}
        kind={percent}
        onChange={leastProbability => ask({ leastProbability })}
      />
      <div className={classes.field}>
        <span className={classes.fieldName}>
          Your hour at the bench costs
          <span className={classes.help}>nothing, if the work is its own reward</span>
        </span>
        <div className={classes.fieldFigure}>
          <MoneyInput
            label={<span className={classes.heard}>Your hour at the bench costs</span>}
            currency={currency}
            value={draft.hourlyRate}
            onChange={hourlyRate => set({ hourlyRate: hourlyRate ?? 0 })}
          />
        </div>
      </div>
      <FigureField
        label="Selling takes of what a car brings"
        value={decision.sellingFees}
        kind={percent}
        onChange={sellingFees => ask({ sellingFees })}
      />
      <FigureField
        label="A donor’s parts bring of its worth"
        value={decision.donorShare}
        kind={percent}
        onChange={donorShare => ask({ donorShare })}
      />
      <div className={classes.field}>
        <span className={classes.fieldName}>
          An original finish is kept from
          <span className={classes.help}>not recommended for paint from this grade on</span>
        </span>
        <Select
          aria-label="An original finish is kept from"
          className={classes.fieldFigure}
          value={String(decision.keepGrade)}
          data={grades.map(grade => ({ value: String(grade), label: gradeLabel(grade) }))}
          allowDeselect={false}
          onChange={grade => ask({ keepGrade: Number(grade) })}
        />
      </div>
      <Checkbox.Group
        label="Variations never recommended for paint"
        className={classes.rarities}
        value={decision.keepRarities}
        onChange={chosen => ask({ keepRarities: rarities.filter(rarity => chosen.includes(rarity)) })}
      >
        <div className={classes.checks}>
          {rarities.map(rarity => (
            <Checkbox key={rarity} value={rarity} label={rarity} />
          ))}
        </div>
      </Checkbox.Group>
    </div>
  );
};
