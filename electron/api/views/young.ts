/**
 * What the procedures answer about a collection that is not valued yet: what would help, and its first steps.
 */
import type { FirstStepFacts } from '../../../valuation/wording/first-step-text.ts';

export type { FirstStepFacts as FirstStep } from '../../../valuation/wording/first-step-text.ts';
export type { NamedAnswer } from '../../../valuation/wording/values/helpful-text.ts';

export interface FirstSteps {
  steps: (FirstStepFacts & { done: boolean; dismissed: boolean })[];
}
