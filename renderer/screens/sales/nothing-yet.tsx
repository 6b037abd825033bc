import { Button } from '@mantine/core';
import { Link } from 'wouter';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';

/** What the screen says before the first sale record: why they matter, and how to get them. */
export const NothingYet = ({ castings, onAdd }: { castings: number; onAdd: () => void }) => (
  <>
    <PageHeader title="Sale records" facts="None yet" />
    <EmptyState
      title="Every value is based on sale records"
      actions={
        <>
          <Button component={Link} href="~/sales/paste" variant="filled">
            Paste sales
          </Button>
          {castings > 0 ? <Button onClick={onAdd}>Add a sale record</Button> : null}
          <Button component={Link} href="~/lots/import?as=sales">
            Import a spreadsheet
          </Button>
        </>
      }
    >
      A sale record is one sale that you saw: what was sold, its grade and finish, its price, when and where.
      Playworn comes with no price list and does not guess: from the sales you enter, it works out what your
      cars would sell for and how certain that is. Two or three sales of a casting are a start, in any words,
      one a line; your own sales are added automatically (see the{' '}
      <Link href="~/sales/sold">cars you sold</Link>).
    </EmptyState>
  </>
);
