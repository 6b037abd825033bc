import { Select } from '@mantine/core';
import { currencyDecimals } from '../../../../valuation/money.ts';
import type { PlanDefaults, ThreePoint } from '../../../../valuation/types.ts';
import { hazardsOf } from '../../../../valuation/wording/work/cautions.ts';
import { gradeLabel, grades } from '../../../../valuation/words.ts';
import { CautionList } from '../../../components/cautions/caution-list.tsx';
import { withPoint } from '../../../components/inputs/three-point.ts';
import classes from './assumptions.module.css';
import type { PartOfDraft } from './draft.ts';
import { CellFigure, FigureField } from './figure-field.tsx';
import { type FigureKind, hours, percent } from './figures.ts';

const points = ['low', 'likely', 'high'] as const;

const PointRow = ({
  name,
  value,
  kind,
  onChange,
}: {
  name: string;
  value: ThreePoint;
  kind: FigureKind;
  onChange: (value: ThreePoint) => void;
}) => (
  <tr>
    <th scope="row">{name}</th>
    {points.map(point => (
      <td key={point}>
        <CellFigure
          label={`${name}, ${point}`}
          value={value[point]}
          kind={kind}
          onChange={next => onChange(withPoint(value, point, next))}
        />
      </td>
    ))}
  </tr>
);

/** What a car without a plan of its own is assumed to need for a restoration, and for lesser work. */
export const StandardPlan = ({ draft, set, currency }: PartOfDraft) => {
  const plan = draft.standardPlan;
  const { restore, conserve, donor } = plan;
  const money: FigureKind = {
    unit: currency,
    scale: 1 / 10 ** currencyDecimals(currency),
    least: 0,
    most: 1_000_000,
    digits: currencyDecimals(currency),
  };
  const setPlan = (change: Partial<typeof plan>) => set({ standardPlan: { ...plan, ...change } });
  const setRestore = (change: Partial<PlanDefaults>) => setPlan({ restore: { ...restore, ...change } });
  return (
    <div className={classes.pairOfTables}>
      <table className={classes.cells}>
        <caption>Hours, and costs in {currency}</caption>
        <thead>
          <tr>
            <th scope="col">For</th>
            {points.map(point => (
              <th key={point} scope="col">
                {point}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <PointRow
            name="Restoring, hours"
            value={restore.hours}
            kind={hours}
            onChange={next => setRestore({ hours: next })}
          />
          {restore.lines.map((line, index) => (
            <PointRow
              key={line.name}
              name={line.name}
              value={line.cost}
              kind={money}
              onChange={cost => setRestore({ lines: restore.lines.with(index, { ...line, cost }) })}
            />
          ))}
          <PointRow
            name="Each part replaced"
            value={plan.replacedPart}
            kind={money}
            onChange={replacedPart => setPlan({ replacedPart })}
          />
          <PointRow
            name="Conserving, hours"
            value={conserve.hours}
            kind={hours}
            onChange={next => setPlan({ conserve: { ...conserve, hours: next } })}
          />
          <PointRow
            name="Conserving, materials"
            value={conserve.cost}
            kind={money}
            onChange={cost => setPlan({ conserve: { ...conserve, cost } })}
          />
          <PointRow
            name="Taking apart, hours"
            value={donor.hours}
            kind={hours}
            onChange={next => setPlan({ donor: { ...donor, hours: next } })}
          />
          <PointRow
            name="Taking apart, materials"
            value={donor.cost}
            kind={money}
            onChange={cost => setPlan({ donor: { ...donor, cost } })}
          />
        </tbody>
      </table>
      <div>
        <div className={classes.field}>
          <span className={classes.fieldName}>A restoration reaches</span>
          <Select
            aria-label="A restoration reaches"
            className={classes.fieldFigure}
            value={String(restore.targetGrade)}
            data={grades.map(grade => ({ value: String(grade), label: gradeLabel(grade) }))}
            allowDeselect={false}
            onChange={grade => setRestore({ targetGrade: Number(grade) })}
          />
        </div>
        <FigureField
          label="Chance that the work spoils a car"
          value={restore.spoilChance}
          kind={percent}
          onChange={spoilChance => setRestore({ spoilChance })}
        />
        <FigureField
          label="Value left if spoiled, %"
          value={restore.spoiledShare}
          kind={percent}
          onChange={spoiledShare => setRestore({ spoiledShare })}
        />
        <div className={classes.field}>
          <span className={classes.fieldName}>Conserving gains</span>
          <Select
            aria-label="Conserving gains"
            className={classes.fieldFigure}
            value={String(draft.decision.conserveGain)}
            data={['0', '0.5', '1', '1.5', '2'].map(value => ({
              value,
              label: `${value} ${value === '1' ? 'grade' : 'grades'}`,
            }))}
            allowDeselect={false}
            onChange={gain => set({ decision: { ...draft.decision, conserveGain: Number(gain) } })}
          />
        </div>
        <CautionList
          hazards={hazardsOf(
            'restore',
            restore.lines.map(line => line.name),
          )}
        />
      </div>
    </div>
  );
};
