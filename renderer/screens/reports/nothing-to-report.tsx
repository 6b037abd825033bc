import { Button } from '@mantine/core';
import { Link } from 'wouter';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';

/** What the screen says while the collection has no car. */
export const NothingToReport = () => (
  <>
    <PageHeader title="Reports" />
    <EmptyState
      title="Nothing to report yet"
      actions={
        <>
          <Button component={Link} href="~/lots/import" variant="filled">
            Import your list
          </Button>
          <Button component={Link} href="~/lots/new">
            Enter a lot
          </Button>
        </>
      }
    >
      A report lists your cars with their pictures, grades and values, and says how the values were found.
      Import your list or enter a lot first.
    </EmptyState>
  </>
);
