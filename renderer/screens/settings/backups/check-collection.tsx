import { Button } from '@mantine/core';
import type { CheckFinding } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useProgress } from '../../../api/use-progress.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { WorkProgress } from '../../../components/notices/work-progress.tsx';
import classes from '../settings.module.css';

const marks: Record<CheckFinding['level'], string> = { ok: '✓', warning: '!', damage: '×' };
const words: Record<CheckFinding['level'], string> = { ok: 'Sound', warning: 'Warning', damage: 'Damage' };

const verdict = (findings: readonly CheckFinding[]): string => {
  const count = (level: CheckFinding['level']) => findings.filter(finding => finding.level === level).length;
  if (count('damage') > 0) return 'The collection is damaged. Restore a backup from before it was.';
  if (count('warning') > 0) return 'The collection is sound, with something to look at.';
  return 'The collection is sound.';
};

/** Goes through the whole collection, photographs and backups included, and says what it found. */
export const CheckCollection = () => {
  const work = useProgress<CheckFinding[]>();
  const { state } = work;
  const check = () => void work.start(signal => api.collection.check(undefined, { signal }));
  const rebuild = useAction(() => api.collection.rebuild(), {
    label: 'Rebuilt the indexes',
    undoable: false,
    failure: 'The indexes could not be rebuilt',
    onDone: check,
  });
  return (
    <div className={classes.check}>
      <Button loading={state.is === 'running'} onClick={check}>
        Check the collection
      </Button>
      <span className="soft grid-text">
        Reads every record, photograph and backup, and compares them with what was written.
      </span>
      <div className={classes.checkResult}>
        <WorkProgress work={work} label="Checking" />
        {state.is === 'done' ? (
          <div role="status">
            <p className={classes.verdict}>{verdict(state.result)}</p>
            <ul className={classes.findings}>
              {state.result.map(finding => (
                <li key={finding.sentence} data-level={finding.level}>
                  <span aria-hidden="true">{marks[finding.level]}</span>
                  <span className="heard">{words[finding.level]}: </span>
                  {finding.sentence}
                </li>
              ))}
            </ul>
            {state.result.some(finding => finding.canBeRebuilt) ? (
              <Button loading={rebuild.isPending} onClick={() => rebuild.mutate()}>
                Rebuild the indexes
              </Button>
            ) : null}
          </div>
        ) : null}
      </div>
    </div>
  );
};
