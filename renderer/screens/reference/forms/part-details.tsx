import { TextInput } from '@mantine/core';
import { partNames } from '../../../../valuation/words.ts';
import classes from '../reference.module.css';
import type { CastingDraft } from './drafts.ts';

type Parts = CastingDraft['parts'];

/** What is known of each part of a casting: sizes, threads, and where it usually suffers. */
export const PartDetails = ({ parts, onChange }: { parts: Parts; onChange: (parts: Parts) => void }) => {
  const change = (part: Parts[number]['part'], what: Partial<Parts[number]>) => {
    const before = parts.find(one => one.part === part) ?? { part, detail: '', lookAt: '' };
    onChange(
      partNames.flatMap(name =>
        name === part ? { ...before, ...what } : (parts.find(one => one.part === name) ?? []),
      ),
    );
  };
  return (
    <fieldset className={classes.photos}>
      <legend>Parts</legend>
      {partNames.map(part => {
        const own = parts.find(one => one.part === part);
        return (
          <div key={part} className={classes.pair}>
            <TextInput
              label={part}
              placeholder="thread, drill, length …"
              maxLength={200}
              value={own?.detail ?? ''}
              onChange={event => change(part, { detail: event.currentTarget.value })}
            />
            <TextInput
              label="what to look at"
              aria-label={`What to look at: ${part}`}
              maxLength={200}
              value={own?.lookAt ?? ''}
              onChange={event => change(part, { lookAt: event.currentTarget.value })}
            />
          </div>
        );
      })}
    </fieldset>
  );
};
