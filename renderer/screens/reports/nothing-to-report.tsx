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
          <Button component={Link} href="~/lots/new" variant="filled">
            Enter a lot
          </Button>
          <Button component={Link} href="~/lots/import">
            Import a spreadsheet
          </Button>
        </>
      }
    >
      A report lists your cars with their pictures, grades and values, and says how the values were found.
      Enter a lot first.
    </EmptyState>
  </>
);
