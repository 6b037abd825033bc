import { QueryClientProvider } from '@tanstack/react-query';
import { Suspense, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { Route, Router, Switch, useLocation } from 'wouter';
import { queryClient } from '../api/query-client.ts';
import type { KeyRegistry } from '../components/keys/key-registry.ts';
import { KeySheet } from '../components/keys/key-sheet.tsx';
import { KeysProvider } from '../components/keys/use-keys.ts';
import { EmptyState } from '../components/layout/empty-state.tsx';
import { LoadingState } from '../components/layout/loading-state.tsx';
import HomeScreen from '../screens/home/index.tsx';
import { AppTheme } from '../theme/app-theme.tsx';
import { BenchCalls } from './bench-calls.tsx';
import { CollectionGate } from './collection-gate.tsx';
import { ErrorBoundary } from './error-boundary.tsx';
import { useHashPlace } from './hash-location.ts';
import { useMenuCommands } from './menu-commands.ts';
import { Rail } from './rail.tsx';
import { ReadOnlyBar } from './read-only-bar.tsx';
import { fetchTheRest, routes } from './routes.ts';
import { SearchEverything } from './search-everything.tsx';
import classes from './shell.module.css';
import { ShowScreen } from './show-screen.tsx';
import { TopBar } from './top-bar.tsx';

const NotFound = () => (
  <EmptyState title="Page not found" actions={<a href="#/">Go to Home</a>}>
    The address may come from another version, or from a collection that is not open.
  </EmptyState>
);

const Screens = () => (
  <Switch>
    <Route path="/">
      <HomeScreen />
    </Route>
    {routes.map(({ path, screen }) => (
      <Route key={path} path={path} nest>
        <ShowScreen code={screen} />
      </Route>
    ))}
    <Route>
      <NotFound />
    </Route>
  </Switch>
);

/** Milliseconds after the first screen: by then it has its figures and pictures. */
const restAfter = 2000;

const Frame = () => {
  const [location] = useLocation();
  const [keysShown, setKeysShown] = useState(false);
  const main = useRef<HTMLElement>(null);
  useMenuCommands(() => setKeysShown(true));
  useEffect(() => {
    const waiting = setTimeout(() => void fetchTheRest(), restAfter);
    return () => clearTimeout(waiting);
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new place begins at its top
  useEffect(() => {
    main.current?.scrollTo({ top: 0 });
  }, [location]);
  return (
    <div className={classes.frame}>
      <button type="button" className={classes.skip} onClick={() => main.current?.focus()}>
        Skip to content
      </button>
      <Rail />
      <TopBar onKeys={() => setKeysShown(true)} />
      <ReadOnlyBar />
      <main ref={main} id="content" className={classes.main} tabIndex={-1}>
        <ErrorBoundary place={location}>
          <Suspense fallback={<LoadingState />}>
            <Screens />
          </Suspense>
        </ErrorBoundary>
      </main>
      <BenchCalls />
      <SearchEverything />
      <KeySheet opened={keysShown} onClose={() => setKeysShown(false)} />
    </div>
  );
};

/** The whole app: theme, data, place, and the screens once a collection is open. */
export const App = ({ keys, onDrawn }: { keys: KeyRegistry; onDrawn: () => void }) => {
  useLayoutEffect(onDrawn, [onDrawn]);
  return (
    <AppTheme>
      <KeysProvider value={keys}>
        <QueryClientProvider client={queryClient}>
          <Router hook={useHashPlace}>
            <CollectionGate>
              <Frame />
            </CollectionGate>
          </Router>
        </QueryClientProvider>
      </KeysProvider>
    </AppTheme>
  );
};
