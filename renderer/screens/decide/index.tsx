import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { api } from '../../api/client.ts';
import { useSummary } from '../../api/use-summary.ts';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import classes from './decide.module.css';
import { DecideScreen } from './decide-screen.tsx';

const Decide = () => {
  const overview = useQuery({ queryKey: ['decide'], queryFn: () => api.decisions.overview() });
  const parts = useQuery({ queryKey: ['parts'], queryFn: () => api.collection.parts() });
  const seasons = useQuery({ queryKey: ['seasons'], queryFn: () => api.work.seasons() });
  const summary = useSummary();
  const error = overview.error ?? parts.error ?? seasons.error ?? summary.error;
  if (error)
    return (
      <ErrorState
        error={error}
        retry={() => {
          void overview.refetch();
          void parts.refetch();
          void seasons.refetch();
          void summary.refetch();
        }}
      />
    );
  if (!overview.data || !parts.data || !seasons.data || !summary.data)
    return (
      <>
        <PageHeader title="Decide" />
        <LoadingState label="Weighing the cars" />
      </>
    );
  if (overview.data.cars.length === 0)
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
      overview={overview.data}
      currency={overview.data.currency}
      shelf={parts.data}
      seasons={seasons.data}
      dir={summary.data.dir}
      today={summary.data.today}
    />
  );
};

export default Decide;
