import { useQuery } from '@tanstack/react-query';
import { type ReactNode, Suspense, useEffect, useRef } from 'react';
import { api } from '../api/client.ts';
import { ErrorState } from '../components/layout/error-state.tsx';
import { LoadingState } from '../components/layout/loading-state.tsx';
import { showNotice } from '../components/notices/undo-notice.tsx';
import { FirstStartScreen } from './routes.tsx';

/** Lets the screens be seen once a collection is open; until then the first start stands in their place. */
export const CollectionGate = ({ children }: { children: ReactNode }) => {
  const {
    data: state,
    error,
    refetch,
  } = useQuery({
    queryKey: ['collection state'],
    queryFn: () => api.collection.state(),
  });
  const told = useRef(new Set<string>());
  const notices = state?.notices;
  useEffect(() => {
    for (const notice of notices ?? []) {
      if (told.current.has(notice)) continue;
      told.current.add(notice);
      showNotice(notice);
    }
  }, [notices]);
  if (error)
    return <ErrorState error={error} retry={() => void refetch()} title="Playworn is not connected" />;
  if (!state) return <LoadingState label="Opening the collection" />;
  if (!state.open)
    return (
      <Suspense fallback={<LoadingState />}>
        <FirstStartScreen />
      </Suspense>
    );
  return children;
};
