import { Button } from '@mantine/core';
import type { ReactNode } from 'react';
import type { CollectionState } from '../../../electron/api/views.ts';
import type { Work } from '../../api/use-progress.ts';
import { WorkProgress } from '../../components/notices/work-progress.tsx';
import classes from './first-start.module.css';

export type Way = 'demo' | 'empty' | 'import' | 'open';

const Choice = ({ title, children, action }: { title: string; children: ReactNode; action: ReactNode }) => (
  <li className={classes.choice}>
    <h2>{title}</h2>
    <p>{children}</p>
    <div className={classes.action}>{action}</div>
  </li>
);

/** The three ways in. The demo shows its progress in its own place. */
export const Choices = ({
  way,
  demo,
  onDemo,
  onChoose,
}: {
  way: Way | null;
  demo: Work<CollectionState>;
  onDemo: () => void;
  onChoose: (way: Way) => void;
}) => {
  const making = demo.state.is === 'running';
  return (
    <ul className={classes.choices}>
      <Choice
        title="Look at the demo"
        action={
          <>
            {making ? null : (
              <Button
                size="sm"
                variant={way === null || way === 'demo' ? 'filled' : 'default'}
                onClick={onDemo}
              >
                Open the demo
              </Button>
            )}
            <WorkProgress work={demo} label="Making the demo" />
          </>
        }
      >
        Ninety cars by an invented maker, five lots and six hundred sale records, with photographs. Try
        everything: it is a separate collection, and does not touch yours.
      </Choice>
      <Choice
        title="Start your collection"
        action={
          <Button
            size="sm"
            variant={way === 'empty' ? 'filled' : 'default'}
            aria-expanded={way === 'empty'}
            disabled={making}
            onClick={() => onChoose('empty')}
          >
            Start empty
          </Button>
        }
      >
        Begin with a lot: enter its price and its cars. Castings, variations and sale records come as you go.
      </Choice>
      <Choice
        title="Bring your spreadsheet"
        action={
          <Button
            size="sm"
            variant={way === 'import' ? 'filled' : 'default'}
            aria-expanded={way === 'import'}
            disabled={making}
            onClick={() => onChoose('import')}
          >
            Import a spreadsheet
          </Button>
        }
      >
        Your own list as CSV or XLSX, in any layout. You see what happens to every row before anything is
        imported.
      </Choice>
    </ul>
  );
};
