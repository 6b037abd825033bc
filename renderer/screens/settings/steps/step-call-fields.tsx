import { Checkbox, MultiSelect, Select } from '@mantine/core';
import type { StepCall, WorkStep } from '../../../../valuation/types.ts';
import { specifiedText } from '../../../../valuation/wording/work/step-call-text.ts';
import { closureText, finishText } from '../../../../valuation/wording/work/work-text.ts';
import {
  closures,
  finishKinds,
  finishStates,
  gradeLabel,
  grades,
  originalities,
} from '../../../../valuation/words.ts';
import { useWords } from '../../../components/words.ts';
import classes from './steps.module.css';

/** The grades to choose from, the worst first. */
export const gradeChoices = grades.map(grade => ({ value: String(grade), label: gradeLabel(grade) }));

/** With one fact of a call; what says nothing goes. */
export const withFact = <Name extends keyof StepCall>(
  call: StepCall,
  name: Name,
  value: StepCall[Name],
): StepCall => {
  const { [name]: _, ...rest } = call;
  return value === undefined || (Array.isArray(value) && value.length === 0)
    ? rest
    : { ...rest, [name]: value };
};

type Lists = 'originality' | 'finishStates' | 'bodyFinish' | 'closures';
const specifieds = Object.keys(specifiedText) as (keyof typeof specifiedText)[];

/** What has to be so of a car and its part for a step to stand in a plan; all that is given must hold. */
export const StepCallFields = ({
  step: { name: stepName, part, call },
  problem,
  set,
}: {
  step: WorkStep;
  /** Why no part can have the grades that are asked for. */
  problem: string | undefined;
  set: (change: Partial<WorkStep>) => void;
}) => {
  const { spell } = useWords();
  const fact = <Name extends keyof StepCall>(name: Name, value: StepCall[Name]) =>
    set({ call: withFact(call, name, value) });
  const grade = (name: 'below' | 'from', label: string) => (
    <Select
      label={label}
      clearable
      clearButtonProps={{ 'aria-label': `${label}: whatever its grade` }}
      placeholder="whatever its grade"
      data={gradeChoices}
      value={call[name] === undefined ? null : String(call[name])}
      error={name === 'from' ? problem : undefined}
      onChange={value => fact(name, value === null ? undefined : Number(value))}
    />
  );
  const list = <Name extends Lists>(
    name: Name,
    label: string,
    all: readonly NonNullable<StepCall[Name]>[number][],
    text: (one: NonNullable<StepCall[Name]>[number]) => string = spell,
  ) => (
    <MultiSelect
      label={label}
      placeholder={call[name] ? '' : 'any'}
      data={all.map(one => ({ value: one, label: spell(text(one)) }))}
      value={[...(call[name] ?? [])]}
      onChange={chosen => fact(name, chosen as StepCall[Name])}
    />
  );
  return (
    <fieldset className={`${classes.field} ${classes.wide} ${classes.call}`}>
      <legend>What calls for it</legend>
      {grade('below', 'Only where the part is below')}
      {grade('from', 'Only where it is at least')}
      {list('originality', 'Origin of the part', originalities)}
      {list('finishStates', 'Finish of the car', finishStates)}
      {list('bodyFinish', 'Made in', finishKinds, finishText)}
      {list('closures', 'To be closed', closures, closureText)}
      <Select
        label="Wheel bearings"
        clearable
        clearButtonProps={{ 'aria-label': 'Whatever the bearings' }}
        placeholder="any"
        data={[
          { value: 'captive', label: 'go with the wheels' },
          { value: 'open', label: 'stay on the axles' },
        ]}
        value={call.captiveBearings === undefined ? null : call.captiveBearings ? 'captive' : 'open'}
        onChange={value => fact('captiveBearings', value === null ? undefined : value === 'captive')}
      />
      <Select
        label="Factory specification"
        clearable
        clearButtonProps={{ 'aria-label': 'Whatever the specification' }}
        placeholder="any"
        data={specifieds.map(value => ({ value, label: spell(specifiedText[value]) }))}
        value={call.specified ?? null}
        onChange={value =>
          fact(
            'specified',
            specifieds.find(one => one === value),
          )
        }
      />
      <Checkbox
        className={classes.tick}
        label="Fits another part where this one is missing or below that grade"
        disabled={part === null}
        checked={call.replace ?? false}
        onChange={event => fact('replace', event.currentTarget.checked || undefined)}
      />
      <Checkbox
        className={classes.tick}
        label="Only where the part has a grade of its own"
        disabled={part === null}
        checked={call.graded ?? false}
        onChange={event => fact('graded', event.currentTarget.checked || undefined)}
      />
      <Checkbox
        className={classes.tick}
        label="Only where you ask for it"
        aria-label={`Only where you ask for it: ${stepName}`}
        checked={call.asked ?? false}
        onChange={event => fact('asked', event.currentTarget.checked || undefined)}
      />
    </fieldset>
  );
};
