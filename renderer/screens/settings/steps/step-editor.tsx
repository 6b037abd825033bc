import { Button, MultiSelect, Select, TextInput } from '@mantine/core';
import type { Currency, WorkStep } from '../../../../valuation/types.ts';
import { cautions } from '../../../../valuation/wording/work/cautions.ts';
import {
  type DeviationKind,
  deviationKinds,
  deviationLabel,
  type Hazard,
  hazards,
  type PartName,
  partNames,
  type WorkKind,
  workKinds,
} from '../../../../valuation/words.ts';
import { useWords } from '../../../components/words.ts';
import { fieldProblems } from './draft-steps.ts';
import { StepCallFields } from './step-call-fields.tsx';
import { StepFigures, StepMaterials, StepParts } from './step-figures.tsx';
import classes from './steps.module.css';

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
  const wrong = fieldProblems(step, steps);
  const set = (change: Partial<WorkStep>) => onChange({ ...step, ...change });
  const others = steps
    .filter(({ id }) => id !== step.id)
    .map(({ id, name }) => ({ value: id, label: words.spell(name) }));
  return (
    <div className={classes.editor}>
      <TextInput
        label="What is done"
        className={classes.wide}
        maxLength={200}
        value={step.name}
        error={wrong.name}
        onChange={event => set({ name: event.currentTarget.value })}
      />
      <MultiSelect
        label="Belongs to"
        data={workKinds.map(kind => ({ value: kind, label: words.option(kind).name }))}
        placeholder={step.kinds.length === 0 ? 'none' : ''}
        value={[...step.kinds]}
        error={wrong.kinds}
        onChange={kinds => set({ kinds: kinds as WorkKind[] })}
      />
      <Select
        label="Part"
        clearable
        clearButtonProps={{ 'aria-label': 'About the whole car' }}
        placeholder="the whole car"
        data={partNames.map(value => ({ value, label: words.spell(value) }))}
        value={step.part}
        onChange={part => set({ part: part as PartName | null })}
      />
      <StepCallFields step={step} problem={wrong.from} set={set} />
      <MultiSelect
        label="Comes after"
        searchable
        className={classes.wide}
        data={others}
        placeholder={step.after.length === 0 ? 'no other step' : ''}
        value={[...step.after]}
        error={wrong.after}
        onChange={after => set({ after })}
      />
      <MultiSelect
        label="Takes the place of"
        searchable
        className={classes.wide}
        placeholder={step.insteadOf.length === 0 ? 'no other step' : ''}
        data={others}
        value={[...step.insteadOf]}
        onChange={insteadOf => set({ insteadOf })}
      />
      <StepFigures step={step} set={set} />
      <StepParts step={step} currency={currency} set={set} />
      <StepMaterials step={step} currency={currency} set={set} />
      <MultiSelect
        label="Hazards"
        placeholder={step.hazards.length === 0 ? 'none' : ''}
        className={classes.wide}
        data={hazards.map(hazard => ({ value: hazard, label: words.spell(cautions[hazard].title) }))}
        value={[...step.hazards]}
        onChange={chosen => set({ hazards: chosen as Hazard[] })}
      />
      <MultiSelect
        label="Departures that it brings"
        placeholder={step.brings.length === 0 ? 'none' : ''}
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
