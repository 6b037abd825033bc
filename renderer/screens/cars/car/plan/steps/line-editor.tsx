import { Button } from '@mantine/core';
import type { Currency, PlanWishes, WorkLine } from '../../../../../../valuation/types.ts';
import { AmountCell, NumberCell } from '../../../../../components/inputs/three-cells.tsx';
import { points, withPoint } from '../../../../../components/inputs/three-point.ts';
import planClasses from '../plan.module.css';
import classes from './steps.module.css';
import { isChanged, materialCost, unchanged, withChange, withPlace } from './wishes.ts';

/**
 * What can be changed of a line: its name, minutes, waiting, cost of materials, and where an own one stands.
 */
export const LineEditor = ({
  line,
  lines,
  wishes,
  currency,
  onChange,
}: {
  line: WorkLine;
  lines: readonly WorkLine[];
  wishes: PlanWishes;
  currency: Currency;
  onChange: (wishes: PlanWishes) => void;
}) => {
  const own = wishes.added?.find(({ id }) => id === line.id);
  const cost = materialCost(line);
  return (
    <div className={classes.editor}>
      <label className={classes.wide}>
        What is done
        <input
          className={planClasses.cell}
          key={line.name}
          defaultValue={line.name}
          maxLength={200}
          onBlur={event => {
            const name = event.currentTarget.value.trim();
            if (name !== '' && name !== line.name) onChange(withChange(wishes, line.id, { name }));
          }}
        />
      </label>
      <fieldset>
        <legend>Your minutes: low, likely, high</legend>
        <div className={planClasses.three}>
          {points.map(point => (
            <NumberCell
              key={point}
              label={`${point} minutes of ${line.name}`}
              value={line.hands[point]}
              onChange={value =>
                onChange(withChange(wishes, line.id, { hands: withPoint(line.hands, point, value) }))
              }
            />
          ))}
        </div>
      </fieldset>
      <fieldset>
        <legend>Minutes of waiting</legend>
        <div className={planClasses.three}>
          {points.map(point => (
            <NumberCell
              key={point}
              label={`${point} waiting of ${line.name}`}
              value={line.waiting[point]}
              most={100_000}
              onChange={value =>
                onChange(withChange(wishes, line.id, { waiting: withPoint(line.waiting, point, value) }))
              }
            />
          ))}
        </div>
      </fieldset>
      <fieldset>
        <legend>Materials, {currency}</legend>
        <div className={planClasses.three}>
          {points.map(point => (
            <AmountCell
              key={point}
              label={`${point} cost of ${line.name}`}
              currency={currency}
              value={cost[point]}
              onChange={value =>
                onChange(withChange(wishes, line.id, { cost: withPoint(cost, point, value) }))
              }
            />
          ))}
        </div>
      </fieldset>
      {own ? (
        <label>
          Comes after
          <select
            className={planClasses.cell}
            value={own.behind ?? ''}
            onChange={event => onChange(withPlace(wishes, line.id, event.currentTarget.value || null))}
          >
            <option value="">everything else</option>
            {lines
              .filter(({ id }) => !id.startsWith('own-'))
              .map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
          </select>
        </label>
      ) : isChanged(wishes, line.id) && wishes.changed?.[line.id] ? (
        <Button variant="subtle" onClick={() => onChange(unchanged(wishes, line.id))}>
          As the step has it
        </Button>
      ) : null}
    </div>
  );
};
