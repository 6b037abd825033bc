import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import type { BackupInfo } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { RestoreDialog } from '../../components/backups/restore-dialog.tsx';
import { holdsText, madeText } from '../../components/backups/texts.ts';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { useDocumentTitle } from '../../components/layout/use-document-title.ts';
import { RecoveryActions } from './actions.tsx';
import { RecoveryBackups } from './backups.tsx';
import classes from './recovery.module.css';
import { adviceText, problemText, restoringHelps } from './words.ts';

const settableAside = /^(damaged|newer|foreign)$/;

/**
 * Stands in the place of the screens while a collection cannot be opened: what is wrong, its backups,
 * and the ways out.
 */
const RecoveryScreen = () => {
  useDocumentTitle('Recovery');
  const [, navigate] = useLocation();
  const [chosen, setChosen] = useState<BackupInfo | null>(null);
  const { data: state } = useQuery({
    queryKey: ['collection state'],
    queryFn: () => api.collection.state(),
  });
  const told = state?.problem;
  const {
    data: survey,
    error,
    refetch,
  } = useQuery({
    queryKey: ['survey', told?.dir],
    queryFn: () => api.collection.survey(told ? { dir: told.dir } : undefined),
    enabled: told !== null && told !== undefined,
    // Reading all backups takes long, and there is nothing to be surveyed once one has been restored.
    meta: { immutable: true },
    gcTime: 0,
  });
  if (!state || !told) return <LoadingState />;
  const { dir } = told;
  const problem = survey?.problem ?? told;
  const mended = survey !== undefined && survey.problem === null;
  return (
    <main className={classes.screen} id="content">
      <div className={classes.column}>
        <h1>This collection cannot be opened</h1>
        <p className={classes.dir}>{dir}</p>
        <div className={classes.wrong} role="alert">
          <p>{problemText(problem)}</p>
          {survey ? (
            <p>
              {mended
                ? 'That was so a moment ago. Nothing seems to be in the way now: try again.'
                : adviceText(problem, survey)}
            </p>
          ) : null}
        </div>
        <RecoveryActions
          dir={dir}
          lookAgain={() => void refetch()}
          canSetAside={survey?.hasDatabase === true && settableAside.test(problem.code)}
          otherIsOpen={state.open}
        />
        {error ? (
          <ErrorState error={error} retry={() => void refetch()} title="Its backups could not be read" />
        ) : survey ? (
          <RecoveryBackups
            survey={survey}
            onRestore={restoringHelps(problem) && !mended ? setChosen : undefined}
          />
        ) : (
          <LoadingState label="Reading its backups in full" />
        )}
      </div>
      <RestoreDialog
        backup={chosen}
        dir={dir}
        title="Restore this backup?"
        onClose={() => setChosen(null)}
        onRestored={() => navigate('/')}
      >
        <p>
          The collection will be as it was at {chosen ? madeText(chosen) : ''}
          {chosen?.holds ? `: ${holdsText(chosen)}` : ''}. What was entered after that is not in it.
        </p>
        <p>
          {survey?.hasDatabase
            ? 'The present state is saved as it is, in a folder of its own among the backups. Nothing is deleted.'
            : 'There is no present state to save: the database is gone. Photographs and backups stay as they are.'}
        </p>
      </RestoreDialog>
    </main>
  );
};

export default RecoveryScreen;
