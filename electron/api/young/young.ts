import { writeSetting } from '../../../db/records/collection/settings.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { keptAnswer } from '../session/kept-answer.ts';
import type { NamedAnswer } from '../views.ts';
import { namedAnswers } from './answers.ts';
import { dismissedSetting, readDismissed } from './first-steps.ts';

const answered = keptAnswer<NamedAnswer[]>('answers');

/** The answers that would give cars a value, the most helpful first. */
const answers = needsCollection.handler(
  ({ context: { session } }): Promise<NamedAnswer[]> => answered.given(session, () => namedAnswers(session)),
);

/** Puts a first step away; undo brings it back. */
const dismiss = needsCollection.input(inputs.dismissStep).handler(async ({ context, input }) => {
  const kinds = await readDismissed(context.session);
  const [key, value] = dismissedSetting([...kinds, input.kind]);
  await context.session.act('Put a first step away', trx => writeSetting(trx, key, value));
});

export const young = { answers, dismiss };
