import { useQuery } from '@tanstack/react-query';
import { type ReactNode, Suspense, useEffect, useRef } from 'react';
import { ErrorState } from '../components/layout/error-state.tsx';
import { LoadingState } from '../components/layout/loading-state.tsx';
import { showNotice } from '../components/notices/undo-notice.tsx';
import { firstStart } from './routes.ts';
import { ShowScreen } from './show-screen.tsx';
import { stateQuery } from './state-query.ts';

/** Lets the screens be seen once a collection is open; until then the first start stands in their place. */
export const CollectionGate = ({ children }: { children: ReactNode }) => {
  const { data: state, error, refetch } = useQuery(stateQuery);
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
        <ShowScreen code={firstStart} />
      </Suspense>
    );
  return children;
};
