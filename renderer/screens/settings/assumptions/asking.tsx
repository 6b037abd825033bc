import { Checkbox, Select } from '@mantine/core';
import type { AssumptionSet } from '../../../../valuation/types.ts';
import { gradeLabel, grades, rarities } from '../../../../valuation/words.ts';
import { MoneyInput } from '../../../components/inputs/money-input.tsx';
import classes from './assumptions.module.css';
import type { PartOfDraft } from './draft.ts';
import { FigureField } from './figure-field.tsx';
import { percent } from './figures.ts';

type Asked = AssumptionSet['decision'];

/** What the owner asks before any work is recommended. */
export const Asking = ({ draft, set, currency }: PartOfDraft) => {
  const { decision } = draft;
  const ask = (change: Partial<Asked>) => set({ decision: { ...decision, ...change } });
  return (
    <div>
      <div className={classes.field}>
        <span className={classes.fieldName}>
          Smallest gain worth working for
          <span className={classes.help}>expected gain compared with leaving the car as it is</span>
        </span>
        <div className={classes.fieldFigure}>
          <MoneyInput
            label={<span className="heard">Smallest gain worth working for</span>}
            currency={currency}
            value={decision.leastGain}
            onChange={leastGain => ask({ leastGain: leastGain ?? 0 })}
          />
        </div>
      </div>
      <FigureField
        label="Lowest probability that it pays"
        value={decision.leastProbability}
        kind={percent}
        onChange={leastProbability => ask({ leastProbability })}
      />
      <div className={classes.field}>
        <span className={classes.fieldName}>
          Cost of one hour of your time
          <span className={classes.help}>0 if you do not count it</span>
        </span>
        <div className={classes.fieldFigure}>
          <MoneyInput
            label={<span className="heard">Cost of one hour of your time</span>}
            currency={currency}
            value={draft.hourlyRate}
            onChange={hourlyRate => set({ hourlyRate: hourlyRate ?? 0 })}
          />
        </div>
      </div>
      <FigureField
        label="Selling costs, % of the sale price"
        value={decision.sellingFees}
        kind={percent}
        onChange={sellingFees => ask({ sellingFees })}
      />
      <FigureField
        label="Value of a donor’s parts, % of the car"
        value={decision.donorShare}
        kind={percent}
        onChange={donorShare => ask({ donorShare })}
      />
      <div className={classes.field}>
        <span className={classes.fieldName}>
          Keep original finishes at or above
          <span className={classes.help}>no repaint is recommended from this grade up</span>
        </span>
        <Select
          aria-label="Keep original finishes at or above"
          className={classes.fieldFigure}
          value={String(decision.keepGrade)}
          data={grades.map(grade => ({ value: String(grade), label: gradeLabel(grade) }))}
          allowDeselect={false}
          onChange={grade => ask({ keepGrade: Number(grade) })}
        />
      </div>
      <Checkbox.Group
        label="Never recommend paint for variations that are"
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
