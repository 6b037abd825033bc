import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { useDeviceChoice } from '../../../components/use-device-choice.ts';
import classes from '../bench.module.css';
import { isOver } from '../job-words.ts';
import { FinishForm } from './finish-form.tsx';

/** Finishing the work on a car: of a job on the bench, or of work that is only written down. */
export const FinishScreen = ({
  carId,
  jobId,
  currency,
  today,
}: {
  carId: number;
  jobId: number | null;
  currency: Currency;
  today: IsoDate;
}) => {
  const known = Number.isInteger(carId) && carId > 0;
  const car = useQuery({
    queryKey: ['car', carId],
    queryFn: () => api.cars.get({ id: carId }),
    enabled: known,
  });
  const jobs = useQuery({ queryKey: ['bench'], queryFn: () => api.bench.list() });
  const [large] = useDeviceChoice('bench-large');
  const error = car.error ?? jobs.error;
  if (error) return <ErrorState title="This car could not be shown" error={error} retry={car.refetch} />;
  if (!known) return <EmptyState title="Car not found" actions={<Link href="~/bench">To the bench</Link>} />;
  if (!car.data || !jobs.data)
    return (
      <>
        <PageHeader title="Finish the work" />
        <LoadingState />
      </>
    );
  const job =
    jobs.data.find(one => (jobId === null ? one.carId === carId && !isOver(one) : one.id === jobId)) ?? null;
  if (job && isOver(job))
    return (
      <EmptyState
        title="That job is over"
        actions={<Link href={`~/cars/${carId}`}>The page of {job.inventoryNumber}</Link>}
      >
        What was done is on the car’s page.
      </EmptyState>
    );
  return (
    <div className={classes.screen} data-large={large || undefined}>
      <PageHeader
        title="Finish the work"
        back={job ? { label: 'Bench', to: `/bench/${job.id}` } : { label: 'Car', to: `/cars/${carId}` }}
        facts={`${car.data.inventoryNumber} ${car.data.casting ?? ''}`}
      />
      <div className="page">
        <FinishForm car={car.data} job={job} currency={currency} today={today} />
      </div>
    </div>
  );
};
