import { Button } from '@mantine/core';
import { Link } from 'wouter';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';

/** What the screen says before the first casting. */
export const NoReference = ({ onAdd }: { onAdd: () => void }) => (
  <>
    <PageHeader title="Reference" facts="No castings yet" />
    <EmptyState
      title="Begin with the castings that you collect"
      actions={
        <>
          <Button component={Link} href="~/lots/import?as=reference" variant="filled">
            Import a spreadsheet
          </Button>
          <Button onClick={onAdd}>Add a casting</Button>
        </>
      }
    >
      The reference says what there is: who made it, in which series, and in which colours and other
      variations each casting was sold. Cars are identified by it, and sale records of one variation then
      count for its sisters too. Bring in the list that you keep, or enter the castings as you meet them.
    </EmptyState>
  </>
);
