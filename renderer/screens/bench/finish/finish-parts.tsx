import { Button, TextInput } from '@mantine/core';
import { useRef } from 'react';
import { partNames } from '../../../../valuation/words.ts';
import condition from '../../../components/condition/condition.module.css';
import {
  type ConditionDraft,
  readGrade,
  withAllParts,
} from '../../../components/condition/condition-draft.ts';
import { PartRow } from '../../../components/condition/part-row.tsx';
import classes from './finish.module.css';

/** The check that the record makes: overall, and part by part. */
export const FinishParts = ({
  draft,
  onChange,
}: {
  draft: ConditionDraft;
  onChange: (draft: ConditionDraft) => void;
}) => {
  const table = useRef<HTMLTableElement>(null);
  const step = (from: number, by: number) => {
    const fields = table.current?.querySelectorAll<HTMLInputElement>('[data-part-grade]');
    fields?.[Math.max(0, Math.min(fields.length - 1, from + by))]?.focus();
  };
  return (
    <>
      <TextInput
        className={classes.overall}
        label="Overall grade"
        inputMode="decimal"
        autoComplete="off"
        maxLength={6}
        value={draft.overall}
        error={readGrade(draft.overall) === undefined}
        onChange={event => onChange({ ...draft, overall: event.currentTarget.value })}
      />
      <p className={classes.note}>Parts that were worked on have no grade until you give them one.</p>
      <table ref={table} className={condition.table}>
        <thead className="heard">
          <tr>
            <th scope="col">Part</th>
            <th scope="col">Grade</th>
            <th scope="col">Originality</th>
            <th scope="col">Note</th>
          </tr>
        </thead>
        <tbody>
          {draft.parts.map((part, index) => (
            <PartRow
              key={part.part}
              draft={part}
              withNotes
              onStep={by => step(index, by)}
              onChange={next => onChange({ ...draft, parts: draft.parts.with(index, next) })}
            />
          ))}
        </tbody>
      </table>
      {draft.parts.length < partNames.length ? (
        <Button variant="subtle" onClick={() => onChange(withAllParts(draft))}>
          More parts
        </Button>
      ) : null}
    </>
  );
};
