import { Link } from 'wouter';
import type { HomeView } from '../../../electron/api/views.ts';
import { nextStepText } from '../../../valuation/wording/next-step-text.ts';
import classes from './home.module.css';

/** The most useful things to do now, each a link to where it is done. */
export const NextSteps = ({ steps }: { steps: HomeView['next'] }) =>
  steps.length === 0 ? (
    <p className="soft">Nothing to do: every car is identified, graded, photographed and decided on.</p>
  ) : (
    <ol className={classes.next}>
      {steps.map(step => (
        <li key={step.kind}>
          <Link href={`~${step.to}`}>
            <span>{nextStepText(step)}</span>
            <span className={classes.go} aria-hidden="true">
              ›
            </span>
          </Link>
        </li>
      ))}
    </ol>
  );
