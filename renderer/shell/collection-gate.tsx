import { useQuery } from '@tanstack/react-query';
import { type ReactNode, Suspense, useEffect, useRef } from 'react';
import { useLocation } from 'wouter';
import type { CollectionState } from '../../electron/api/views.ts';
import { ErrorState } from '../components/layout/error-state.tsx';
import { LoadingState } from '../components/layout/loading-state.tsx';
import { places } from '../components/layout/places.ts';
import { showNotice } from '../components/notices/undo-notice.tsx';
import { firstStart, recovery } from './routes.ts';
import { ShowScreen } from './show-screen.tsx';
import { stateQuery } from './state-query.ts';

/** What stands in the place of the screens; null where they can be seen. */
const instead = ({ open, problem }: CollectionState, location: string) => {
  if (open) return problem && location === places.recovery ? recovery : null;
  return problem && location !== places.firstStart ? recovery : firstStart;
};

/**
 * Lets the screens be seen once a collection is open; until then the first start or the recovery
 * stands in their place.
 */
export const CollectionGate = ({ children }: { children: ReactNode }) => {
  const { data: state, error, refetch } = useQuery(stateQuery);
  const told = useRef(new Set<string>());
  const [location] = useLocation();
  const { notices, readOnlyBecause } = state ?? {};
  useEffect(() => {
    // A bar says why nothing can be written, for as long as it is so.
    const news = (notices ?? []).filter(notice => notice !== readOnlyBecause && !told.current.has(notice));
    for (const notice of news) told.current.add(notice);
    // In one, as a later notice takes the place of an earlier one.
    if (news.length > 0) showNotice(news.join(' '));
  }, [notices, readOnlyBecause]);
  if (error)
    return <ErrorState error={error} retry={() => void refetch()} title="Playworn is not connected" />;
  if (!state) return <LoadingState label="Opening the collection" />;
  const code = instead(state, location);
  if (!code) return children;
  return (
    <Suspense fallback={<LoadingState />}>
      <ShowScreen key={code === recovery ? 'recovery' : 'first start'} code={code} />
    </Suspense>
  );
};
