import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { api } from '../../api/client.ts';
import { useSummary } from '../../api/use-summary.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { ButtonLink } from './button-link.tsx';
import { draftInput, emptyDraft, type LotDraft } from './lot-draft.ts';
import classes from './lot-fields.module.css';
import { LotFields } from './lot-fields.tsx';

const NewLotForm = ({ initial }: { initial: LotDraft }) => {
  const [draft, setDraft] = useState(initial);
  const [, navigate] = useLocation();
  const create = useAction(
    (input: ReturnType<typeof draftInput> & { seen: boolean }) => api.lots.create(input),
    {
      label: input => `Lot ${input.name} added`,
      thenGo: ({ id }) => navigate(`/${id}`),
    },
  );
  return (
    <form
      className={classes.form}
      onSubmit={event => {
        event.preventDefault();
        if (draft.name.trim()) create.mutate({ ...draftInput(draft), seen: draft.seen });
      }}
    >
      <LotFields draft={draft} onChange={setDraft} autoFocus withSeen />
      <div className={classes.foot}>
        <span className={`${classes.apart} soft grid-text`}>
          The cars come next; or <Link href="/import">import them from a spreadsheet</Link>.
        </span>
        <ButtonLink href="/">Cancel</ButtonLink>
        <Button type="submit" variant="filled" disabled={!draft.name.trim()} loading={create.isPending}>
          Enter its cars
        </Button>
      </div>
    </form>
  );
};

/** A new purchase, before its cars are entered. */
export const NewLot = () => {
  const { data: summary } = useSummary();
  return (
    <>
      <PageHeader
        title="New lot"
        facts="What you bought together, or saw, for one price"
        back={{ label: 'Lots', to: '/lots' }}
      />
      <div className="page">
        {summary ? (
          <NewLotForm initial={emptyDraft(summary.reportingCurrency, summary.today)} />
        ) : (
          <LoadingState />
        )}
      </div>
    </>
  );
};
