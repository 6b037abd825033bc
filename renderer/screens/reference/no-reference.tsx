import { Button } from '@mantine/core';
import { Link } from 'wouter';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { readerWords } from '../../components/words.ts';
import { useWaitingCount, WaitingLink } from './names/waiting-link.tsx';

/** What the screen says before the first casting. */
export const NoReference = ({ onAdd }: { onAdd: () => void }) => (
  <>
    <PageHeader title="Reference" facts="No castings yet" />
    <EmptyState
      title="Start with the castings you collect"
      actions={
        <>
          <WaitingLink filled />
          <Button
            component={Link}
            href="~/lots/import?as=reference"
            variant={useWaitingCount() > 0 ? 'default' : 'filled'}
          >
            Import a spreadsheet
          </Button>
          <Button onClick={onAdd}>Add a casting</Button>
        </>
      }
    >
      The reference lists castings: who made them, in which series, and in which{' '}
      {readerWords().dialect.colours} and other variations. Playworn identifies cars by it, and sale records
      of one variation also count for related ones. Import your own list, or enter castings as you come across
      them.
    </EmptyState>
  </>
);
