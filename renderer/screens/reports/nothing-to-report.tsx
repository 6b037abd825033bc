import { BeginActions } from '../../components/layout/begin-actions.tsx';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';

/** What the screen says while the collection has no car. */
export const NothingToReport = () => (
  <>
    <PageHeader title="Reports" />
    <EmptyState title="Nothing to report yet" actions={<BeginActions />}>
      A report lists your cars with their pictures, grades and values, and says how the values were found.
      Import your list or enter a lot first.
    </EmptyState>
  </>
);
