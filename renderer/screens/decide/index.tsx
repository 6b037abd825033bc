import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { api } from '../../api/client.ts';
import { useSummary } from '../../api/use-summary.ts';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { untilWorkedOut, useWhenWorkedOut } from '../../components/layout/of-before.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import classes from './decide.module.css';
import { DecideScreen } from './decide-screen.tsx';
import { useDecideList } from './list/use-decide-list.ts';
import { seasonsKey } from './season/use-season.ts';
import { useSeasonCars } from './season/use-season-cars.ts';
import { useDecideFilter } from './use-decide-filter.ts';
import { useSharedCursor } from './use-shared-cursor.ts';

const Decide = () => {
  const { filter, setFilter, named } = useDecideFilter();
  const facts = useQuery({
    queryKey: ['decide', 'facts', filter],
    queryFn: () => api.decisions.facts(filter),
    placeholderData: keepPreviousData,
    refetchInterval: untilWorkedOut,
  });
  useWhenWorkedOut('decide', facts.data?.workingOut);
  const parts = useQuery({ queryKey: ['parts'], queryFn: () => api.collection.parts() });
  const seasons = useQuery({ queryKey: seasonsKey, queryFn: () => api.work.seasons() });
  const summary = useSummary();
  const shared = useSharedCursor(named);
  const list = useDecideList(filter, shared.sentTo, seasons.dataUpdatedAt);
  const cars = useSeasonCars(seasons.data);
  const { windowed } = list;
  const error = facts.error ?? windowed.error ?? parts.error ?? seasons.error ?? summary.error ?? cars.error;
  if (error)
    return (
      <ErrorState
        error={error}
        retry={() => {
          windowed.retry();
          for (const one of [facts, parts, seasons, summary, cars]) void one.refetch();
        }}
      />
    );
  const isReady = !windowed.isFirst && cars.isReady;
  if (!facts.data || !parts.data || !seasons.data || !summary.data || !isReady)
    return (
      <>
        <PageHeader title="Decide" />
        <LoadingState label="Weighing the cars" />
      </>
    );
  if (facts.data.cars === 0)
    return (
      <>
        <PageHeader title="Decide" facts="No cars yet" />
        <div className="page">
          <EmptyState
            title="No car waits for a decision"
            actions={
              <>
                <Link className={classes.primary} href="~/lots/import">
                  Import your list
                </Link>
                <Link className={classes.secondary} href="~/lots/new">
                  Enter a lot
                </Link>
              </>
            }
          >
            Here every car is weighed: leave it, conserve it, restore it, or use it for its parts. Import your
            list or enter a lot first; sold cars are not weighed any more.
          </EmptyState>
        </div>
      </>
    );
  return (
    <DecideScreen
      facts={facts.data}
      areOld={facts.isPlaceholderData}
      filter={filter}
      setFilter={setFilter}
      list={list}
      cars={cars}
      shared={shared}
      currency={facts.data.currency}
      shelf={parts.data}
      seasons={seasons.data}
      dir={summary.data.dir}
      today={summary.data.today}
    />
  );
};

export default Decide;
