import { Button, SegmentedControl, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Fragment, useEffect, useRef, useState } from 'react';
import type { StepsView } from '../../../../electron/api/views.ts';
import type { Currency, WorkStep } from '../../../../valuation/types.ts';
import { hazards as allHazards, cautions } from '../../../../valuation/wording/work/cautions.ts';
import { stepCallText } from '../../../../valuation/wording/work/step-call-text.ts';
import { type WorkKind, workKinds } from '../../../../valuation/words.ts';
import { startingSteps, startingStepsLabel } from '../../../../valuation/work/steps/index.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { CautionList } from '../../../components/cautions/caution-list.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { useWords } from '../../../components/words.ts';
import { KeepBar } from '../assumptions/keep-bar.tsx';
import { countStepChanges, newStep, stepProblem, withoutStep } from './draft-steps.ts';
import { LearnedPart } from './learned.tsx';
import { StepEditor } from './step-editor.tsx';
import classes from './steps.module.css';

type Sent = Parameters<typeof api.work.saveSteps>[0]['steps'];

const minutes = ({ low, likely, high }: WorkStep['hands']): string =>
  high === 0 ? '–' : `${low}–${likely}–${high}`;

const Editor = ({ view, currency }: { view: StepsView; currency: Currency }) => {
  const words = useWords();
  const [steps, setSteps] = useState<readonly WorkStep[]>(view.steps);
  useEffect(() => setSteps(view.steps), [view.steps]);
  const [kind, setKind] = useState<WorkKind>('restore');
  const [open, setOpen] = useState<string | null>(null);
  const [name, setName] = useState('');
  // Counts what was discarded, so that what was written and could not be read goes with it.
  const [round, setRound] = useState(0);
  const table = useRef<HTMLDivElement>(null);
  /** Goes back to what is written and cannot be read, before it would be lost; false where all is read. */
  const goToUnread = (): boolean => {
    const unread = table.current?.querySelector<HTMLElement>('[data-unread]');
    unread?.focus();
    return unread != null;
  };
  const save = useAction(
    (note: string) => api.work.saveSteps({ steps: structuredClone(steps) as Sent, note }),
    { label: 'Steps saved as a new version', failure: 'The steps could not be saved' },
  );
  const shown = steps.filter(({ kinds }) => kinds.includes(kind) || kinds.length === 0);
  const changes = countStepChanges(view.steps, steps);
  const problem = stepProblem(steps);
  const starting = startingSteps(currency);
  const called = new Set(shown.flatMap(step => step.hazards));
  return (
    <>
      <p className={classes.lead}>
        Plans are made of these steps. {startingStepsLabel} Every change is a version; plans that you saved go
        on with the version of which they were made.
      </p>
      <LearnedPart currency={currency} />
      <SegmentedControl
        aria-label="Steps of"
        data={workKinds.map(one => ({ value: one, label: words.option(one).name }))}
        value={kind}
        onChange={next => setKind(workKinds.find(one => one === next) ?? 'restore')}
      />
      <div className={classes.scroll} ref={table}>
        <table className={classes.table}>
          <thead>
            <tr>
              <th scope="col">Step</th>
              <th scope="col">Called for by</th>
              <th scope="col" className={classes.end}>
                Minutes
              </th>
              <th scope="col">Hazards</th>
              <th scope="col">
                <span className="heard">Change</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {shown.map(step => (
              <Fragment key={step.id}>
                <tr>
                  <th scope="row">{words.spell(step.name)}</th>
                  <td className="soft">{stepCallText(step, words.locale)}</td>
                  <td className={`amount ${classes.end}`}>{minutes(step.hands)}</td>
                  <td className={classes.hazards}>
                    {step.hazards.map(hazard => words.spell(cautions[hazard].title)).join(' · ')}
                  </td>
                  <td className={classes.end}>
                    <Button
                      variant="subtle"
                      aria-expanded={open === step.id}
                      aria-label={`Change the step ${words.spell(step.name)}`}
                      onClick={() => {
                        if (!goToUnread()) setOpen(open === step.id ? null : step.id);
                      }}
                    >
                      {open === step.id ? 'Close' : 'Change'}
                    </Button>
                  </td>
                </tr>
                {open === step.id ? (
                  <tr>
                    <td colSpan={5}>
                      <StepEditor
                        key={round}
                        step={step}
                        steps={steps}
                        currency={currency}
                        onChange={next => setSteps(steps.map(one => (one.id === step.id ? next : one)))}
                        onRemove={() => setSteps(withoutStep(steps, step.id))}
                      />
                    </td>
                  </tr>
                ) : null}
              </Fragment>
            ))}
          </tbody>
        </table>
      </div>
      <form
        className={classes.add}
        onSubmit={event => {
          event.preventDefault();
          const made = newStep(name.trim(), steps);
          setSteps([...steps, { ...made, kinds: [kind] }]);
          setOpen(made.id);
          setName('');
        }}
      >
        <TextInput
          aria-label="Name of a new step"
          placeholder="name of a new step"
          maxLength={200}
          value={name}
          onChange={event => setName(event.currentTarget.value)}
        />
        <Button type="submit" disabled={name.trim() === ''}>
          Add step
        </Button>
        {view.version > 0 ? (
          <Button variant="subtle" onClick={() => setSteps(starting)}>
            Use the starting steps
          </Button>
        ) : null}
      </form>
      {problem ? <p className="harm">{problem}</p> : null}
      {changes > 0 && !problem ? (
        <KeepBar
          changes={changes}
          of="step"
          next={view.version + 1}
          saving={save.isPending}
          onKeep={note => {
            if (!goToUnread()) save.mutate(note);
          }}
          onDiscard={() => {
            setSteps(view.steps);
            setRound(round + 1);
          }}
        />
      ) : null}
      <CautionList hazards={allHazards.filter(hazard => called.has(hazard))} />
    </>
  );
};

/** The steps of which plans are made, to be changed, added to and learned. */
export const StepsSection = ({ currency }: { currency: Currency }) => {
  const { data: view, isPending } = useQuery({ queryKey: ['work-steps'], queryFn: () => api.work.steps() });
  const standing = view
    ? view.version === 0
      ? view.note || 'the starting points, unchanged'
      : `version ${view.version}${view.note ? `: ${view.note}` : ''}`
    : null;
  return (
    <Section id="steps" title="Steps of work" aside={standing}>
      {view ? <Editor view={view} currency={currency} /> : isPending ? <LoadingState part /> : null}
    </Section>
  );
};
