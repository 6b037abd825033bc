import { Button, MultiSelect, Select, TextInput } from '@mantine/core';
import type { Currency, ThreePoint, WorkStep } from '../../../../valuation/types.ts';
import { cautions } from '../../../../valuation/wording/cautions.ts';
import {
  type DeviationKind,
  deviationKinds,
  deviationLabel,
  gradeLabel,
  grades,
  type Hazard,
  hazards,
  type PartName,
  partNames,
  type WorkKind,
  workKinds,
} from '../../../../valuation/words.ts';
import { AmountCell, NumberCell } from '../../../components/inputs/three-cells.tsx';
import { useWords } from '../../../components/words.ts';
import classes from './steps.module.css';

const gradeChoices = grades.map(grade => ({ value: String(grade), label: gradeLabel(grade) }));
const points = ['low', 'likely', 'high'] as const;

const raised = (three: ThreePoint, point: keyof ThreePoint, value: number): ThreePoint => {
  const next = { ...three, [point]: value };
  return {
    low: point === 'low' ? value : Math.min(next.low, value),
    likely:
      point === 'low'
        ? Math.max(next.likely, value)
        : point === 'high'
          ? Math.min(next.likely, value)
          : value,
    high: point === 'high' ? value : Math.max(next.high, value),
  };
};

const Three = ({
  legend,
  of,
  three,
  onChange,
}: {
  legend: string;
  of: string;
  three: ThreePoint;
  onChange: (three: ThreePoint) => void;
}) => (
  <fieldset className={classes.field}>
    <legend>{legend}</legend>
    <div className={classes.three}>
      {points.map(point => (
        <NumberCell
          key={point}
          label={`${legend} of ${of}, ${point}`}
          value={three[point]}
          most={100_000}
          onChange={value => onChange(raised(three, point, value))}
        />
      ))}
    </div>
  </fieldset>
);

interface Part {
  step: WorkStep;
  set: (change: Partial<WorkStep>) => void;
}

/** How long a step takes, what it risks and what it gains. */
const StepFigures = ({ step, set }: Part) => (
  <>
    <Three
      legend="Minutes of your own: low, likely, high"
      of={step.name}
      three={step.hands}
      onChange={hands => set({ hands })}
    />
    <Three
      legend="Minutes of waiting"
      of={step.name}
      three={step.waiting}
      onChange={waiting => set({ waiting })}
    />
    <fieldset className={classes.field}>
      <legend>Spoils the car, %</legend>
      <NumberCell
        label={`Chance that ${step.name} spoils the car, percent`}
        value={step.spoilChance * 100}
        most={100}
        onChange={value => set({ spoilChance: value / 100 })}
      />
    </fieldset>
    <fieldset className={classes.field}>
      <legend>Value left then, %</legend>
      <NumberCell
        label={`Value left where ${step.name} spoils the car, percent`}
        value={step.spoiledShare * 100}
        most={100}
        onChange={value => set({ spoiledShare: value / 100 })}
      />
    </fieldset>
    <fieldset className={classes.field}>
      <legend>Grade points that it gains, up to</legend>
      <div className={classes.two}>
        <NumberCell
          label={`Points that ${step.name} gains`}
          value={step.grade?.gain ?? 0}
          most={9}
          onChange={value => {
            const gain = Math.round(value * 2) / 2;
            set({ grade: gain === 0 ? null : { gain, upTo: step.grade?.upTo ?? 9 } });
          }}
        />
        <Select
          aria-label={`The best that ${step.name} makes of its part`}
          disabled={step.grade === null}
          data={gradeChoices}
          value={String(step.grade?.upTo ?? 9)}
          onChange={value => set({ grade: step.grade && { ...step.grade, upTo: Number(value ?? 9) } })}
        />
      </div>
    </fieldset>
  </>
);

/** What a step uses up, each with its cost. */
const Materials = ({ step, currency, set }: Part & { currency: Currency }) => (
  <fieldset className={`${classes.field} ${classes.wide}`}>
    <legend>Materials and tools, {currency}</legend>
    {step.materials.map((material, i) => {
      const change = (next: Partial<typeof material>) =>
        set({ materials: step.materials.with(i, { ...material, ...next }) });
      return (
        <div key={i} className={classes.material}>
          <TextInput
            aria-label={`Material ${i + 1}`}
            maxLength={200}
            value={material.name}
            onChange={event => change({ name: event.currentTarget.value })}
          />
          {points.map(point => (
            <AmountCell
              key={point}
              label={`${point} cost of material ${i + 1}`}
              currency={currency}
              value={material.cost[point]}
              onChange={minor => change({ cost: raised(material.cost, point, minor) })}
            />
          ))}
          <Button
            variant="subtle"
            aria-label={`Remove material ${i + 1}`}
            onClick={() => set({ materials: step.materials.toSpliced(i, 1) })}
          >
            Remove
          </Button>
        </div>
      );
    })}
    <Button
      variant="subtle"
      onClick={() =>
        set({
          materials: [
            ...step.materials,
            { name: '', kind: 'material', cost: { low: 0, likely: 0, high: 0 } },
          ],
        })
      }
    >
      Add a material
    </Button>
  </fieldset>
);

/** Everything that can be said of a step. */
export const StepEditor = ({
  step,
  steps,
  currency,
  onChange,
  onRemove,
}: {
  step: WorkStep;
  steps: readonly WorkStep[];
  currency: Currency;
  onChange: (step: WorkStep) => void;
  onRemove: () => void;
}) => {
  const words = useWords();
  const set = (change: Partial<WorkStep>) => onChange({ ...step, ...change });
  return (
    <div className={classes.editor}>
      <TextInput
        label="What is done"
        className={classes.wide}
        maxLength={200}
        value={step.name}
        onChange={event => set({ name: event.currentTarget.value })}
      />
      <MultiSelect
        label="Belongs to"
        data={workKinds.map(kind => ({ value: kind, label: words.option(kind).name }))}
        value={[...step.kinds]}
        onChange={kinds => set({ kinds: kinds as WorkKind[] })}
      />
      <Select
        label="Part"
        clearable
        clearButtonProps={{ 'aria-label': 'About the whole car' }}
        placeholder="the whole car"
        data={[...partNames]}
        value={step.part}
        onChange={part => set({ part: part as PartName | null })}
      />
      <Select
        label="Only where the part is below"
        clearable
        clearButtonProps={{ 'aria-label': 'Whatever its grade' }}
        placeholder="whatever its grade"
        data={gradeChoices}
        value={step.call.below === undefined ? null : String(step.call.below)}
        onChange={value => {
          const { below: _, ...call } = step.call;
          set({ call: value === null ? call : { ...call, below: Number(value) } });
        }}
      />
      <MultiSelect
        label="Comes after"
        searchable
        className={classes.wide}
        data={steps.filter(({ id }) => id !== step.id).map(({ id, name }) => ({ value: id, label: name }))}
        value={[...step.after]}
        onChange={after => set({ after })}
      />
      <StepFigures step={step} set={set} />
      <Materials step={step} currency={currency} set={set} />
      <MultiSelect
        label="Hazards"
        className={classes.wide}
        data={hazards.map(hazard => ({ value: hazard, label: words.spell(cautions[hazard].title) }))}
        value={[...step.hazards]}
        onChange={chosen => set({ hazards: chosen as Hazard[] })}
      />
      <MultiSelect
        label="Departures that it brings"
        className={classes.wide}
        data={deviationKinds.map(kind => ({ value: kind, label: words.spell(deviationLabel(kind)) }))}
        value={[...step.brings]}
        onChange={brings => set({ brings: brings as DeviationKind[] })}
      />
      <Button variant="subtle" onClick={onRemove}>
        Remove this step
      </Button>
    </div>
  );
};
