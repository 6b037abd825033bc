import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { LedgerKind, LedgerResult } from '../../../../../electron/api/views.ts';
import { api } from '../../../../api/client.ts';
import { resultOf, useProgress } from '../../../../api/use-progress.ts';
import { Section } from '../../../../components/layout/section.tsx';
import { WorkProgress } from '../../../../components/notices/work-progress.tsx';
import type { WaysIn } from '../before-list.tsx';
import classes from '../import.module.css';
import { bookWords, type Source } from '../import-choice.ts';
import { FileNotes, ListUnderWay } from '../list-under-way.tsx';
import { RejectedRows } from '../rejected-rows.tsx';
import { bookCount } from './book-count.ts';
import { BookRows } from './book-rows.tsx';

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

const Tried = ({ tried, fileName }: { tried: LedgerResult; fileName: string }) => (
  <>
    <FileNotes notes={tried.notes} />
    {tried.sample.length > 0 ? (
      <Section title="Rows">
        <BookRows tried={tried} />
      </Section>
    ) : null}
    {tried.rejected.length > 0 ? (
      <Section title="Lines that would be left out">
        <RejectedRows rejected={tried.rejected} fileName={fileName} />
      </Section>
    ) : (
      <p className="soft">
        {tried.accepted + tried.duplicates === 0 ? 'There is no row in it.' : 'Every row was read.'}
      </p>
    )}
  </>
);

/** A list of the books under way: tried first, so that it is seen what would become of each of its lines. */
export const BookWork = ({
  as,
  source,
  ways,
  onImported,
}: {
  as: LedgerKind;
  source: Source;
  ways: WaysIn;
  onImported: (result: LedgerResult) => void;
}) => {
  const { file, turn } = source;
  const work = useProgress<LedgerResult>();
  const running = work.state.is === 'running';
  const run = async () => {
    const result = await work.start(signal => api.imports.ledger({ file, as }, { signal }));
    if (result) onImported(result);
  };
  const { data: tried, error } = useQuery({
    queryKey: ['ledger trial', turn, as],
    queryFn: async ({ signal }) => resultOf(await api.imports.ledger({ file, as, dryRun: true }, { signal })),
    retry: false,
    gcTime: 0,
    enabled: !running,
  });
  return (
    <ListUnderWay
      as={as}
      source={source}
      ways={ways}
      error={error}
      read={tried ? <Tried tried={tried} fileName={file.name} /> : null}
      taken={
        tried ? (
          <>
            <BookCounts as={as} tried={tried} />
            <div className={classes.go}>
              {running ? null : (
                <Button
                  fullWidth
                  size="sm"
                  variant="filled"
                  disabled={tried.accepted === 0}
                  onClick={() => void run()}
                >
                  {tried.accepted === 0
                    ? 'There is nothing new to import'
                    : `Import ${bookCount(as, tried.accepted)}`}
                </Button>
              )}
              <WorkProgress work={work} label="Importing" />
              <p className="soft grid-text">One undo reverses the whole import.</p>
            </div>
          </>
        ) : null
      }
    />
  );
};
