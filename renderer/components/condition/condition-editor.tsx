import { Button } from '@mantine/core';
import { type Ref, useEffect, useImperativeHandle, useRef, useState } from 'react';
import type { ConditionCheckView } from '../../../electron/api/views.ts';
import type { IsoDate } from '../../../valuation/types.ts';
import { type Grade, type PartName, partNames, partsToShow } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../actions/use-action.ts';
import { dateText } from '../format.ts';
import classes from './condition.module.css';
import { checkInput, draftOfCheck, isReadable, newestCheck, readGrade } from './condition-draft.ts';
import { PartRow } from './part-row.tsx';

export interface ConditionHandle {
  /** Goes to the first part's grade, and scrolls there. */
  focus: () => void;
}

/** The overall grade of a check, and when the parts were checked. */
const OverallRow = ({
  grade,
  newest,
  withNotes,
  onStep,
  onChange,
}: {
  /** As it is typed. */
  grade: string;
  newest: ConditionCheckView | null;
  withNotes: boolean;
  onStep: (by: number) => void;
  onChange: (grade: string) => void;
}) => {
  const overall = readGrade(grade);
  return (
    <tr>
      <th scope="row" className={classes.strong}>
        overall
      </th>
      <td className={classes.gradeCell}>
        <input
          className={`${classes.grade} ${classes.strong}`}
          aria-label="Overall grade"
          aria-invalid={overall === undefined || undefined}
          placeholder="–"
          inputMode="decimal"
          autoComplete="off"
          maxLength={6}
          value={grade}
          data-part-grade
          onFocus={event => event.currentTarget.select()}
          onChange={event => onChange(event.currentTarget.value)}
          onKeyDown={event => {
            if (event.key !== 'ArrowDown' && event.key !== 'Enter') return;
            if (event.ctrlKey || event.metaKey) return;
            event.preventDefault();
            onStep(1);
          }}
        />
        <span className={classes.rule} aria-hidden="true">
          <span style={{ width: typeof overall === 'number' ? `${overall * 10}%` : 0 }} />
        </span>
      </td>
      <td className="soft" colSpan={withNotes ? 2 : 1}>
        {newest ? `checked ${dateText(newest.checkedOn)}` : 'not checked by part yet'}
      </td>
    </tr>
  );
};

/**
 * The condition of a car, part by part, on the day of the newest check or today. Grades are typed, arrows and
 * Enter walk the parts, the letters O P R M say whether a part is original; what was changed is kept once the
 * editor is left, as one action.
 */
export const ConditionEditor = ({
  carId,
  grade,
  checks,
  castingParts,
  today,
  withNotes = false,
  handle,
}: {
  carId: number;
  /** The car's overall grade. */
  grade: Grade | null;
  checks: readonly ConditionCheckView[];
  /** The parts that its casting has; null where they are not listed. */
  castingParts: readonly PartName[] | null;
  today: IsoDate;
  /** Shows a note for each part, where there is room. */
  withNotes?: boolean;
  handle?: Ref<ConditionHandle>;
}) => {
  const newest = newestCheck(checks);
  const [more, setMore] = useState(false);
  const seen = newest?.parts.map(({ part }) => part) ?? [];
  const saved = draftOfCheck(newest, grade, more ? partNames : partsToShow(castingParts, seen));
  const savedText = JSON.stringify(saved);
  const [draft, setDraft] = useState(saved);
  // biome-ignore lint/correctness/useExhaustiveDependencies: compared by what it says; another car or check begins again
  useEffect(() => setDraft(saved), [carId, savedText]);
  const table = useRef<HTMLTableElement>(null);
  const save = useAction((input: ReturnType<typeof checkInput>) => api.cars.saveCheck(input), {
    label: 'Condition saved',
  });
  const changed = JSON.stringify(draft) !== savedText;
  const readable = isReadable(draft);
  const keep = () => {
    if (changed && readable && !save.isPending) save.mutate(checkInput(carId, draft, newest, today));
  };
  const step = (from: number, by: number) => {
    const fields = table.current?.querySelectorAll<HTMLInputElement>('[data-part-grade]');
    fields?.[Math.max(0, Math.min(fields.length - 1, from + by))]?.focus();
  };
  useImperativeHandle(handle, () => ({ focus: () => step(0, 0) }));
  return (
    <fieldset
      className={classes.editor}
      onBlur={event => {
        if (!event.currentTarget.contains(event.relatedTarget)) keep();
      }}
      onKeyDown={event => {
        if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
          event.preventDefault();
          event.stopPropagation();
          keep();
        }
        if (event.key === 'Escape' && changed) {
          event.stopPropagation();
          setDraft(saved);
        }
      }}
    >
      <legend className="heard">Condition by part</legend>
      <table ref={table} className={classes.table}>
        <thead className="heard">
          <tr>
            <th scope="col">Part</th>
            <th scope="col">Grade</th>
            <th scope="col">Originality</th>
            {withNotes ? <th scope="col">Note</th> : null}
          </tr>
        </thead>
        <tbody>
          <OverallRow
            grade={draft.overall}
            newest={newest}
            withNotes={withNotes}
            onStep={by => step(0, by)}
            onChange={overall => setDraft({ ...draft, overall })}
          />
          {draft.parts.map((part, index) => (
            <PartRow
              key={part.part}
              draft={part}
              withNotes={withNotes}
              onStep={by => step(index + 1, by)}
              onChange={next => setDraft({ ...draft, parts: draft.parts.with(index, next) })}
            />
          ))}
        </tbody>
      </table>
      <div className={classes.foot}>
        <span className={readable ? 'soft' : 'harm'}>
          {readable
            ? '↑ ↓ parts · O P R M originality'
            : 'Grades go from C1 to C10 in half points; nothing is saved until you correct this grade.'}
        </span>
        {more || draft.parts.length === partNames.length ? null : (
          <Button variant="subtle" onClick={() => setMore(true)} disabled={changed}>
            More parts
          </Button>
        )}
        {changed ? (
          <Button onClick={keep} disabled={!readable} loading={save.isPending}>
            Save
          </Button>
        ) : null}
      </div>
    </fieldset>
  );
};
