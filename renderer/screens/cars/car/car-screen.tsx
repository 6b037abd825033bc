import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { Link } from 'wouter';
import { api } from '../../../api/client.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { CarBody } from './car-body.tsx';

/**
 * One car by its id. Its neighbours are asked for beforehand, so that walking from car to car does not wait.
 */
export const CarScreen = ({ id }: { id: number }) => {
  const client = useQueryClient();
  const known = Number.isInteger(id) && id > 0;
  const car = useQuery({ queryKey: ['car', id], queryFn: () => api.cars.get({ id }), enabled: known });
  const summary = useSummary();
  const { previousId, nextId } = car.data ?? { previousId: null, nextId: null };
  useEffect(() => {
    for (const neighbour of [previousId, nextId])
      if (neighbour !== null)
        void client.prefetchQuery({
          queryKey: ['car', neighbour],
          queryFn: () => api.cars.get({ id: neighbour }),
        });
  }, [client, previousId, nextId]);
  if (!known)
    return (
      <EmptyState title="Car not found" actions={<Link href="~/cars">All cars</Link>}>
        This collection has no car at that address.
      </EmptyState>
    );
  const error = car.error ?? summary.error;
  if (error) return <ErrorState title="This car could not be shown" error={error} retry={car.refetch} />;
  if (!car.data || !summary.data) return <LoadingState />;
  return <CarBody car={car.data} currency={summary.data.reportingCurrency} today={summary.data.today} />;
};
