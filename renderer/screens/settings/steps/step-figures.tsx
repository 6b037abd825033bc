import { Button, MultiSelect, Select, TextInput } from '@mantine/core';
import type { BoughtPart, Currency, ThreePoint, WorkStep } from '../../../../valuation/types.ts';
import { originalities, type PartName, partNames } from '../../../../valuation/words.ts';
import { AmountCell, cellClass, NumberCell } from '../../../components/inputs/three-cells.tsx';
import { points, withPoint } from '../../../components/inputs/three-point.ts';
import { useWords } from '../../../components/words.ts';
import { gradeChoices } from './step-call-fields.tsx';
import classes from './steps.module.css';

/** Low, likely and high of minutes. */
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
          onChange={value => onChange(withPoint(three, point, value))}
        />
      ))}
    </div>
  </fieldset>
);

/** A step, and how to change it. */
export interface StepPart {
  step: WorkStep;
  set: (change: Partial<WorkStep>) => void;
}

/** How long a step takes, what it risks and what it gains. */
export const StepFigures = ({ step, set }: StepPart) => (
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
          multipleOf={0.5}
          onChange={gain => set({ grade: gain === 0 ? null : { gain, upTo: step.grade?.upTo ?? 9 } })}
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

const bought: BoughtPart = { originality: 'reproduction', cost: { low: 0, likely: 0, high: 0 } };
const origins = originalities.filter(one => one !== 'missing');

/** What a step makes of the origin of its part, which parts go in it, and what a part to fit costs. */
export const StepParts = ({ step, currency, set }: StepPart & { currency: Currency }) => {
  const { spell } = useWords();
  const originChoices = origins.map(value => ({ value, label: spell(value) }));
  const { buys } = step;
  return (
    <>
      <Select
        label="Makes the part"
        description="its origin afterwards"
        clearable
        clearButtonProps={{ 'aria-label': 'What it was' }}
        placeholder="what it was"
        disabled={step.part === null || step.call.replace === true}
        data={originChoices}
        value={step.leaves}
        onChange={value => set({ leaves: origins.find(one => one === value) ?? null })}
      />
      <MultiSelect
        label="Parts that go with it"
        description="so that others are needed"
        placeholder={step.takes.length === 0 ? 'none' : ''}
        data={partNames.map(value => ({ value, label: spell(value) }))}
        value={[...step.takes]}
        onChange={chosen => set({ takes: chosen as PartName[] })}
      />
      {step.call.replace ? (
        <fieldset className={classes.field}>
          <legend>To buy, where the shelf has none, {currency}</legend>
          <Select
            aria-label={`Origin of the part that ${step.name} buys`}
            clearable
            clearButtonProps={{ 'aria-label': 'As the assumptions say' }}
            placeholder="as the assumptions say"
            data={originChoices}
            value={buys?.originality ?? null}
            onChange={value => {
              const originality = origins.find(one => one === value);
              set({ buys: originality ? { ...(buys ?? bought), originality } : null });
            }}
          />
          {buys ? (
            <div className={classes.three}>
              {points.map(point => (
                <AmountCell
                  key={point}
                  label={`${point} price of the part that ${step.name} buys`}
                  currency={currency}
                  value={buys.cost[point]}
                  onChange={minor => set({ buys: { ...buys, cost: withPoint(buys.cost, point, minor) } })}
                />
              ))}
            </div>
          ) : null}
        </fieldset>
      ) : null}
    </>
  );
};

/** What a step uses up, each with its cost. */
export const StepMaterials = ({ step, currency, set }: StepPart & { currency: Currency }) => (
  <fieldset className={`${classes.field} ${classes.wide}`}>
    <legend>Materials and tools, {currency}</legend>
    {step.materials.map((material, i) => {
      const change = (next: Partial<typeof material>) =>
        set({ materials: step.materials.with(i, { ...material, ...next }) });
      return (
        <div key={i} className={classes.material}>
          <select
            className={cellClass}
            aria-label={`What material ${i + 1} is`}
            value={material.kind}
            onChange={event => change({ kind: event.currentTarget.value === 'tool' ? 'tool' : 'material' })}
          >
            <option value="material">material</option>
            <option value="tool">tool</option>
          </select>
          <TextInput
            aria-label={`Material ${i + 1}`}
            maxLength={200}
            value={material.name}
            error={material.name.trim() === '' && 'A material needs a name.'}
            onChange={event => change({ name: event.currentTarget.value })}
          />
          {points.map(point => (
            <AmountCell
              key={point}
              label={`${point} cost of material ${i + 1}`}
              currency={currency}
              value={material.cost[point]}
              onChange={minor => change({ cost: withPoint(material.cost, point, minor) })}
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
