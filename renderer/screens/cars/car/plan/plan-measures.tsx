import {
  deviationKinds,
  deviationLabel,
  deviationOfOpening,
  gradeLabel,
  grades,
  originalities,
  type PartName,
} from '../../../../../valuation/words.ts';
import { cellClass, NumberCell } from '../../../../components/inputs/three-cells.tsx';
import { readerWords } from '../../../../components/words.ts';
import classes from './plan.module.css';
import { type PlanDraft, partAfter, partsOfPlan, withPartAfter } from './plan-draft.ts';

interface Part {
  draft: PlanDraft;
  onChange: (draft: PlanDraft) => void;
}

/** What is aimed at, the hours it takes, and what can go wrong. */
export const PlanMeasures = ({ draft, onChange }: Part) => (
  <div className={classes.measures}>
    <label>
      Work
      <select
        className={cellClass}
        value={draft.kind}
        onChange={event =>
          onChange({ ...draft, kind: event.currentTarget.value === 'customise' ? 'customise' : 'restore' })
        }
      >
        <option value="restore">restore</option>
        <option value="customise">{readerWords().dialect.customise}</option>
      </select>
    </label>
    <label>
      Target grade
      <select
        className={cellClass}
        value={draft.targetGrade}
        onChange={event => onChange({ ...draft, targetGrade: Number(event.currentTarget.value) })}
      >
        {grades.toReversed().map(grade => (
          <option key={grade} value={grade}>
            {gradeLabel(grade)}
          </option>
        ))}
      </select>
    </label>
    <fieldset>
      <legend>Hours: low, likely, high</legend>
      <div className={classes.three}>
        {(['low', 'likely', 'high'] as const).map(point => (
          <NumberCell
            key={point}
            label={`${point} hours`}
            value={draft.hours[point]}
            onChange={hours => onChange({ ...draft, hours: { ...draft.hours, [point]: hours } })}
          />
        ))}
      </div>
    </fieldset>
    <fieldset>
      <legend>Chance of spoiling it, %</legend>
      <NumberCell
        label="Chance of spoiling it, percent"
        value={draft.spoilChance * 100}
        most={100}
        onChange={percent => onChange({ ...draft, spoilChance: percent / 100 })}
      />
    </fieldset>
    <fieldset>
      <legend>Value left if spoiled, %</legend>
      <NumberCell
        label="Value left if spoiled, percent"
        value={draft.spoiledShare * 100}
        most={100}
        onChange={percent => onChange({ ...draft, spoiledShare: percent / 100 })}
      />
    </fieldset>
  </div>
);

/**
 * Where the work departs from the factory specification; each departure lowers fidelity, and
 * with it the worth.
 */
export const Deviations = ({ draft, onChange }: Part) => (
  <fieldset className={classes.deviations}>
    <legend>Departures from the factory specification</legend>
    {deviationKinds.map(kind => (
      <label key={kind}>
        <input
          type="checkbox"
          checked={draft.deviations.includes(kind) || kind === deviationOfOpening}
          disabled={kind === deviationOfOpening}
          onChange={event =>
            onChange({
              ...draft,
              deviations: event.currentTarget.checked
                ? [...draft.deviations, kind]
                : draft.deviations.filter(other => other !== kind),
            })
          }
        />
        {readerWords().spell(deviationLabel(kind))}
        {kind === deviationOfOpening ? ' (every opened car)' : ''}
      </label>
    ))}
  </fieldset>
);

/** How each part will stand after the work. */
export const PartsAfter = ({
  draft,
  castingParts,
  onChange,
}: Part & { castingParts: readonly PartName[] | null }) => (
  <fieldset className={classes.parts}>
    <legend>Parts after the work</legend>
    {partsOfPlan(
      castingParts,
      draft.partsAfter.map(({ part }) => part),
    ).map(part => (
      <label key={part}>
        <span>{readerWords().spell(part)}</span>
        <select
          className={cellClass}
          value={partAfter(draft, part)}
          data-word={partAfter(draft, part)}
          onChange={event =>
            onChange(
              withPartAfter(
                draft,
                part,
                originalities.find(word => word === event.currentTarget.value) ?? 'original',
              ),
            )
          }
        >
          {originalities.map(word => (
            <option key={word}>{word}</option>
          ))}
        </select>
      </label>
    ))}
  </fieldset>
);
