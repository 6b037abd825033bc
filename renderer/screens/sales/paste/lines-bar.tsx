import { Button, Checkbox, SegmentedControl } from '@mantine/core';
import { KeyHint } from '../../../components/keys/key-hint.tsx';
import classes from './paste.module.css';
import type { Standing } from './paste-draft.ts';

/** Which of the lines are shown. */
export type Show = 'all' | Standing;

export const shows: readonly [Show, string][] = [
  ['all', 'All'],
  ['add', 'To add'],
  ['lacks', 'Incomplete'],
  ['no-car', 'No single car'],
  ['recorded', 'Recorded already'],
  ['left-out', 'Left out'],
];

/** Above the lines: which are shown, whether with all fields, and the texts that wait for a meaning. */
export const LinesBar = ({
  show,
  counts,
  words,
  allFields,
  onShow,
  onAsk,
  onAllFields,
}: {
  show: Show;
  counts: ReadonlyMap<Show, number>;
  /** How many texts are not understood. */
  words: number;
  allFields: boolean;
  onShow: (show: Show) => void;
  onAsk: () => void;
  onAllFields: (all: boolean) => void;
}) => (
  <div className={classes.bar}>
    <SegmentedControl
      aria-label="Lines shown"
      value={show}
      data={shows
        .filter(([value]) => value === 'all' || value === show || counts.get(value))
        .map(([value, label]) => ({
          value,
          label: (
            <>
              {label} <span className={classes.tally}>{(counts.get(value) ?? 0).toLocaleString()}</span>
            </>
          ),
        }))}
      onChange={value => onShow(value as Show)}
    />
    {words > 0 ? (
      <Button variant="subtle" rightSection={<KeyHint keys="F8" />} onClick={onAsk}>
        {words === 1 ? 'Say what 1 text means' : `Say what ${words.toLocaleString()} texts mean`}
      </Button>
    ) : null}
    <Checkbox
      label="All fields"
      checked={allFields}
      onChange={event => onAllFields(event.currentTarget.checked)}
    />
  </div>
);
