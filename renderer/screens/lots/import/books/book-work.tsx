import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { LedgerKind, LedgerResult } from '../../../../../electron/api/views.ts';
import { api } from '../../../../api/client.ts';
import { errorSentence } from '../../../../api/error-sentence.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { LoadingState } from '../../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../../components/layout/page-header.tsx';
import { Section } from '../../../../components/layout/section.tsx';
import { DropFile } from '../drop-file.tsx';
import classes from '../import.module.css';
import { bookWords, type ListKind, type Source } from '../import-choice.ts';
import { KindSwitch } from '../kind-switch.tsx';
import { ChangeText } from '../paste-text.tsx';
import { RejectedRows } from '../rejected-rows.tsx';
import { bookCount } from './book-count.ts';

/** What would become of the rows, as one bar and in words. */
const BookCounts = ({ as, tried }: { as: LedgerKind; tried: LedgerResult }) => {
  const { accepted, duplicates, rejected } = tried;
  const parts = [
    { word: 'taken', count: accepted },
    { word: 'duplicates', count: duplicates },
    { word: 'rejected', count: rejected.length },
  ];
  return (
    <div className={classes.counts}>
      <span className={classes.bar} aria-hidden="true">
        {parts.map(({ word, count }) => (
          <span key={word} data-part={word} style={{ flexGrow: count }} />
        ))}
      </span>
      <ul>
        <li data-part="taken">
          <strong>{accepted.toLocaleString()}</strong>{' '}
          {accepted === 1 ? bookWords[as].row : bookWords[as].rows} would be imported
        </li>
        {duplicates > 0 ? (
          <li data-part="duplicates">
            <strong>{duplicates.toLocaleString()}</strong> already known, left as{' '}
            {duplicates === 1 ? 'it is' : 'they are'}
          </li>
        ) : null}
        {rejected.length > 0 ? (
          <li data-part="rejected">
            <strong>{rejected.length.toLocaleString()}</strong> {rejected.length === 1 ? 'line' : 'lines'}{' '}
            left out, each with its reason
          </li>
        ) : null}
      </ul>
    </div>
  );
};

/** A list of the books under way: tried first, so that it is seen what would become of each of its lines. */
export const BookWork = ({
  as,
  source: { file, turn, pasted },
  onKind,
  onFile,
  onText,
  onImported,
}: {
  as: LedgerKind;
  source: Source;
  onKind: (as: ListKind) => void;
  onFile: (file: File) => void;
  onText: (text: string) => void;
  onImported: (result: LedgerResult) => void;
}) => {
  const run = useAction(() => api.imports.ledger({ file, as }), {
    label: '',
    undoable: false,
    failure: 'Nothing was imported',
    onDone: onImported,
  });
  const { data: tried, error } = useQuery({
    queryKey: ['ledger trial', turn, as],
    queryFn: ({ signal }) => api.imports.ledger({ file, as, dryRun: true }, { signal }),
    retry: false,
    gcTime: 0,
    enabled: run.isIdle,
  });
  return (
    <>
      <PageHeader
        title={file.name}
        facts="Nothing is imported until you confirm"
        back={{ label: 'Lots', to: '/lots' }}
        actions={
          <>
            <KindSwitch as={as} onKind={onKind} />
            {pasted === null ? null : <ChangeText text={pasted} onText={onText} />}
            <DropFile label={pasted === null ? 'Another file' : 'A file instead'} onFile={onFile} />
          </>
        }
      />
      <div className={`page ${classes.split}`}>
        <div className={classes.left}>
          {error ? (
            <p className={classes.problem} role="alert">
              {errorSentence(error)}
            </p>
          ) : tried ? (
            <>
              {tried.notes.length > 0 ? (
                <ul className={classes.warnings}>
                  {tried.notes.map(note => (
                    <li key={note}>{note}</li>
                  ))}
                </ul>
              ) : null}
              {tried.rejected.length > 0 ? (
                <Section title="Lines that would be left out">
                  <RejectedRows rejected={tried.rejected} fileName={file.name} />
                </Section>
              ) : (
                <p className="soft">
                  {tried.accepted + tried.duplicates === 0 ? 'There is no row in it.' : 'Every row was read.'}
                </p>
              )}
            </>
          ) : (
            <LoadingState part label="Reading the file" />
          )}
        </div>
        <aside className={classes.right} aria-label="What will be imported">
          {tried && !error ? (
            <>
              <BookCounts as={as} tried={tried} />
              <div className={classes.go}>
                <Button
                  fullWidth
                  size="sm"
                  variant="filled"
                  disabled={tried.accepted === 0}
                  loading={run.isPending}
                  onClick={() => run.mutate()}
                >
                  {tried.accepted === 0
                    ? 'There is nothing new to import'
                    : `Import ${bookCount(as, tried.accepted)}`}
                </Button>
                <p className="soft grid-text">One undo reverses the whole import.</p>
              </div>
            </>
          ) : null}
        </aside>
      </div>
    </>
  );
};
