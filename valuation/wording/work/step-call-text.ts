import type { FinishKind, WorkStep } from '../../types.ts';
import { gradeLabel } from '../../words.ts';
import { spell } from '../dialect.ts';
import { closureText } from './work-text.ts';

/** What the factory specification says, as a step asks for it. */
export const specifiedText = {
  'base painted': 'the base was made painted',
  'roof apart': 'the roof was made in another finish',
  'tail apart': 'tail or trim were made in another finish',
};

const madeIn: Record<FinishKind, string> = {
  plate: 'bright plate',
  lacquer: 'lacquer',
  enamel: 'enamel',
  bare: 'bare metal',
  unknown: 'a finish that is not recorded',
};

/**
 * When a step is called for, in a few words: "axles below C8"; "every such job" where its kind alone calls
 * for it.
 */
export const stepCallText = ({ part, call }: Pick<WorkStep, 'part' | 'call'>, locale: string): string => {
  const what = part ?? 'the car';
  const facts: string[] = [];
  if (call.asked) facts.push('only where you ask for it');
  if (call.replace)
    facts.push(
      call.below === undefined
        ? `${what} missing`
        : `${what} missing, or graded below ${gradeLabel(call.below)}`,
    );
  else if (call.below !== undefined) facts.push(`${what} below ${gradeLabel(call.below)}`);
  if (call.from !== undefined) facts.push(`${what} at least ${gradeLabel(call.from)}`);
  if (call.graded) facts.push(`${what} graded itself`);
  if (call.originality) facts.push(`${what} ${call.originality.join(' or ')}`);
  if (call.finishStates) facts.push(`finish ${call.finishStates.join(' or ')}`);
  if (call.bodyFinish) facts.push(`made in ${call.bodyFinish.map(finish => madeIn[finish]).join(' or ')}`);
  if (call.closures) facts.push(call.closures.map(closureText).join(' or '));
  if (call.captiveBearings !== undefined)
    facts.push(call.captiveBearings ? 'bearings go with the wheels' : 'wheels come off their axles');
  if (call.specified) facts.push(specifiedText[call.specified]);
  return facts.length === 0 ? 'every such job' : spell(facts.join('; '), locale);
};
