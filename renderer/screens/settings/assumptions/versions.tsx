import { Button } from '@mantine/core';
import type { AssumptionsView } from '../../../../electron/api/views.ts';
import { momentText } from '../../../components/backups/texts.ts';
import classes from './assumptions.module.css';

/** Every version that was kept, with its note; past valuations rest on theirs. */
export const Versions = ({
  view,
  onStartingPoints,
}: {
  view: AssumptionsView;
  onStartingPoints: () => void;
}) => (
  <div>
    <ol className={classes.versions}>
      {view.versions.map(({ version, madeAt, note }) => (
        <li key={version}>
          <span>
            Version {version}
            {version === view.version ? ', in use' : ''}
          </span>
          <span className="soft">{momentText(madeAt)}</span>
          <span>{note || <span className="soft">no note</span>}</span>
        </li>
      ))}
      <li>
        <span>Starting points{view.untouched ? ', in use' : ''}</span>
        <span className="soft">come with Playworn</span>
        <span>
          {view.untouched ? (
            <span className="soft">unchanged</span>
          ) : (
            <Button variant="subtle" size="compact-xs" onClick={onStartingPoints}>
              Use the starting values
            </Button>
          )}
        </span>
      </li>
    </ol>
  </div>
);
