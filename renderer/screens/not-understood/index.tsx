import { Button } from '@mantine/core';
import { Link } from 'wouter';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { AskHelp } from '../../components/own-words/ask-help.tsx';
import { AskWaiting, useWaitingWords } from '../../components/own-words/ask-waiting.tsx';

/** All texts of cars and sale records that are not understood, each asked once. */
const NotUnderstoodScreen = () => {
  const { data: words, error, refetch } = useWaitingWords();
  if (error) return <ErrorState error={error} retry={() => void refetch()} />;
  if (!words) return <LoadingState />;
  const rows = words.reduce((sum, { cars, sales }) => sum + cars + sales, 0);
  return (
    <>
      <PageHeader
        title="Not understood"
        facts={
          words.length === 0
            ? 'Nothing to settle'
            : `${words.length.toLocaleString()} ${words.length === 1 ? 'text' : 'texts'} in ${rows.toLocaleString()} ${rows === 1 ? 'place' : 'places'}, saved as written`
        }
        actions={
          <Button component={Link} href="~/settings?part=words">
            Your words
          </Button>
        }
      />
      <div className="page">
        {words.length === 0 ? (
          <EmptyState title="Everything that you wrote is understood">
            What an import cannot read is saved as written beside its field, and is asked about here.
          </EmptyState>
        ) : (
          <AskHelp />
        )}
        <AskWaiting words={words} />
      </div>
    </>
  );
};

export default NotUnderstoodScreen;
