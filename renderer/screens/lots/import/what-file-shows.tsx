import { Button } from '@mantine/core';
import type { ImportPreview } from '../../../../electron/api/views.ts';
import {
  formatAnswerName,
  formatQuestionText,
  learnedText,
} from '../../../../valuation/wording/file-words.ts';
import { Section } from '../../../components/layout/section.tsx';
import type { ImportChoice } from './import-choice.ts';
import classes from './shows.module.css';

type Question = ImportPreview['questions'][number];
type Answer = Question['choices'][number];

/** The choice with a column's decimal sign, its order of dates or the currency of its bare amounts said. */
const answered = (choice: ImportChoice, { column, kind }: Question, answer: Answer): ImportChoice => {
  if (kind === 'decimal')
    return { ...choice, decimal: { ...choice.decimal, [column]: answer as ImportChoice['decimal'][string] } };
  if (kind === 'currency') return { ...choice, bareCurrency: { ...choice.bareCurrency, [column]: answer } };
  return {
    ...choice,
    dateOrder: { ...choice.dateOrder, [column]: answer as ImportChoice['dateOrder'][string] },
  };
};

/**
 * What the file cannot tell by itself, each to be answered by a press, and what it has shown of how it is
 * written.
 */
export const WhatFileShows = ({
  preview: { learned, questions },
  choice,
  onChange,
}: {
  preview: ImportPreview;
  choice: ImportChoice;
  onChange: (choice: ImportChoice) => void;
}) => {
  if (learned.length + questions.length === 0) return null;
  return (
    <Section
      title={questions.length > 0 ? 'What the file does not say' : 'What the file shows'}
      aside={questions.length > 0 ? 'Left open, such cells are saved as written' : undefined}
    >
      {questions.length > 0 ? (
        <ul className={classes.questions}>
          {questions.map(question => (
            <li key={`${question.column} ${question.kind}`}>
              <p>{formatQuestionText(question)}</p>
              <span>
                {question.choices.map(answer => (
                  <Button
                    key={answer}
                    size="xs"
                    aria-label={`${question.column}: ${formatAnswerName(answer)}`}
                    onClick={() => onChange(answered(choice, question, answer))}
                  >
                    {formatAnswerName(answer)}
                  </Button>
                ))}
              </span>
            </li>
          ))}
        </ul>
      ) : null}
      {learned.length > 0 ? (
        <ul className={classes.learned}>
          {learned.map(format => (
            <li key={`${format.column} ${format.kind}`}>{learnedText(format)}</li>
          ))}
        </ul>
      ) : null}
    </Section>
  );
};
