import { helpfulText } from '../../valuation/wording/values/helpful-text.ts';
import type { NamedAnswer } from '../api/views.ts';

const maxAnswers = 3;

/** The answers that would give cars a value, each with its sentence, for programs. */
export const answersOf = (answers: NamedAnswer[]) =>
  answers.map(answer => ({ ...answer, sentence: helpfulText(answer) }));

/** The most helpful of them, in words; nothing where every car has a value. */
export const answerLines = (answers: ReturnType<typeof answersOf>): string[] =>
  answers.length === 0
    ? []
    : [
        '',
        'What would help the most:',
        ...answers.slice(0, maxAnswers).map(({ sentence }) => `  ${sentence}`),
      ];
