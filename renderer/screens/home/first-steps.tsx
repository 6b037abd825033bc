import { ActionIcon } from '@mantine/core';
import { IconCheck, IconX } from '@tabler/icons-react';
import { Link } from 'wouter';
import type { FirstStep, FirstSteps as Steps } from '../../../electron/api/views.ts';
import { firstStepText, firstStepTitles } from '../../../valuation/wording/first-step-text.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { placeOf } from '../../components/evidence/helpful-answers.tsx';
import classes from './first-steps.module.css';

interface Way {
  label: string;
  to: string;
}

/** Where a step is done, the likeliest way first. */
const waysOf = (step: FirstStep): Way[] => {
  switch (step.kind) {
    case 'cars':
      return [
        { label: 'Import your list', to: '/lots/import' },
        { label: 'Enter a lot', to: '/lots/new' },
      ];
    case 'names':
      return step.names > 0 ? [{ label: 'Settle names', to: '/reference/names' }] : [];
    case 'words':
      return step.words > 0 ? [{ label: 'Say what they mean', to: '/not-understood' }] : [];
    case 'prices': {
      const { lots } = step.unpriced;
      const asked = step.best?.kind === 'belief' ? step.best : null;
      const belief = {
        label: 'Say what you believe',
        to: asked ? placeOf(asked) : '/settings?part=beliefs',
      };
      const paste = { label: 'Paste sales', to: '/sales/paste' };
      return [
        ...(asked ? [belief, paste] : [paste, belief]),
        ...(lots > 0
          ? [
              {
                label: lots === 1 ? 'Enter what a lot cost' : `Enter what ${lots} lots cost`,
                to: '/lots',
              },
            ]
          : []),
      ];
    }
    case 'decide':
      return step.valued > 0 ? [{ label: 'Decide', to: '/decide' }] : [];
  }
};

/**
 * The way of a young collection to its first decisions: each step with what it would bring. None is forced.
 */
export const FirstSteps = ({ steps }: { steps: Steps['steps'] }) => {
  const dismiss = useAction((kind: FirstStep['kind']) => api.young.dismiss({ kind }), {
    label: 'Step put away',
  });
  const shown = steps.filter(step => !step.dismissed);
  const first = shown.find(step => !step.done && waysOf(step).length > 0)?.kind;
  return (
    <ol className={classes.steps} aria-label="First steps">
      {shown.map(step => (
        <li key={step.kind} data-done={step.done || undefined} data-first={step.kind === first || undefined}>
          <span className={classes.mark}>
            {step.done ? <IconCheck size={16} stroke={2} aria-label="Done" /> : null}
          </span>
          <div className={classes.what}>
            <h3>{firstStepTitles[step.kind]}</h3>
            <p>{firstStepText(step)}</p>
          </div>
          <p className={classes.ways}>
            {step.done
              ? null
              : waysOf(step).map(({ label, to }, at) => (
                  <Link
                    key={to}
                    href={`~${to}`}
                    className={step.kind === first && at === 0 ? classes.primary : classes.way}
                  >
                    {label}
                  </Link>
                ))}
          </p>
          {step.done ? (
            <span />
          ) : (
            <ActionIcon
              variant="subtle"
              color="gray"
              aria-label={`Put the step “${firstStepTitles[step.kind]}” away`}
              title="Put away"
              onClick={() => dismiss.mutate(step.kind)}
            >
              <IconX size={14} stroke={1.8} />
            </ActionIcon>
          )}
        </li>
      ))}
    </ol>
  );
};
