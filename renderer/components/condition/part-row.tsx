import type { KeyboardEvent } from 'react';
import { originalities } from '../../../valuation/words.ts';
import classes from './condition.module.css';
import { gradeText, originalityOfKey, type PartDraft, readGrade } from './condition-draft.ts';

/** One part: its grade over a rule that fills with it, and whether it is the one it was made with. */
export const PartRow = ({
  draft,
  onChange,
  onStep,
  withNotes,
}: {
  draft: PartDraft;
  onChange: (draft: PartDraft) => void;
  /** Moves to the part above (−1) or below (1). */
  onStep: (step: number) => void;
  withNotes: boolean;
}) => {
  const grade = readGrade(draft.grade);
  const missing = draft.originality === 'missing';
  const press = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'ArrowDown' || event.key === 'Enter') onStep(1);
    else if (event.key === 'ArrowUp') onStep(-1);
    else {
      const originality = originalityOfKey(event.key);
      if (!originality) return;
      onChange({ ...draft, originality, ...(originality === 'missing' && { grade: '' }) });
    }
    event.preventDefault();
  };
  return (
    <tr data-missing={missing || undefined}>
      <th scope="row">{draft.part}</th>
      <td className={classes.gradeCell}>
        <input
          className={classes.grade}
          aria-label={`Grade of the ${draft.part}`}
          aria-invalid={grade === undefined || undefined}
          title={grade === undefined ? 'A grade from C1 to C10 in half points' : undefined}
          placeholder={missing ? 'none' : '–'}
          inputMode="decimal"
          autoComplete="off"
          maxLength={6}
          value={draft.grade}
          data-part-grade
          onFocus={event => event.currentTarget.select()}
          onChange={event =>
            onChange({
              ...draft,
              grade: event.currentTarget.value,
              ...(missing && event.currentTarget.value.trim() !== '' && { originality: 'original' }),
            })
          }
          onBlur={() => {
            if (typeof grade === 'number' && draft.grade !== gradeText(grade))
              onChange({ ...draft, grade: gradeText(grade) });
          }}
          onKeyDown={press}
        />
        <span className={classes.rule} aria-hidden="true">
          <span style={{ width: typeof grade === 'number' ? `${grade * 10}%` : 0 }} />
        </span>
      </td>
      <td>
        <select
          className={classes.originality}
          aria-label={`Originality of the ${draft.part}`}
          value={draft.originality}
          data-word={draft.originality}
          onChange={event => {
            const originality = originalities.find(word => word === event.currentTarget.value) ?? 'original';
            onChange({ ...draft, originality, ...(originality === 'missing' && { grade: '' }) });
          }}
        >
          {originalities.map(word => (
            <option key={word} value={word}>
              {word}
            </option>
          ))}
        </select>
      </td>
      {withNotes ? (
        <td>
          <input
            className={classes.note}
            aria-label={`Note on the ${draft.part}`}
            placeholder="–"
            maxLength={200}
            value={draft.note}
            onChange={event => onChange({ ...draft, note: event.currentTarget.value })}
          />
        </td>
      ) : null}
    </tr>
  );
};
