import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { useWords } from '../../../../../components/words.ts';
import planClasses from '../plan.module.css';
import classes from './steps.module.css';
import { type PlanDraft, useSaveTemplate } from './use-plan-draft.ts';

const Template = ({ plan }: { plan: PlanDraft }) => {
  const [name, setName] = useState('');
  const save = useSaveTemplate(plan, () => setName(''));
  return (
    <form
      className={classes.template}
      onSubmit={event => {
        event.preventDefault();
        if (name.trim() !== '') save.mutate(name.trim());
      }}
    >
      <TextInput
        aria-label="Name of a template"
        placeholder="name of a template"
        maxLength={200}
        value={name}
        onChange={event => setName(event.currentTarget.value)}
      />
      <Button type="submit" variant="subtle" disabled={name.trim() === ''}>
        Save as a template
      </Button>
    </form>
  );
};

/** What can be done with a plan: saved as the car's own or as a template, put back, dropped. */
export const PlanActions = ({ plan }: { plan: PlanDraft }) => {
  const words = useWords();
  const { paints, kind, changed, isKnown, isSaved, view, save, drop } = plan;
  return (
    <div className={planClasses.actions}>
      <Button
        variant={changed ? 'filled' : 'default'}
        disabled={!isKnown || (!changed && isSaved && view.before === null)}
        loading={save.isPending}
        onClick={() => save.mutate()}
      >
        {isSaved
          ? 'Save the plan'
          : paints
            ? 'Save as this car’s plan'
            : `Save as the plan to ${words.option(kind).infinitive} it`}
      </Button>
      {changed ? (
        <Button variant="subtle" onClick={plan.discard}>
          Discard changes
        </Button>
      ) : null}
      {isSaved ? (
        <Button variant="subtle" onClick={() => drop.mutate()}>
          Back to the proposed plan
        </Button>
      ) : null}
      <Template plan={plan} />
    </div>
  );
};
