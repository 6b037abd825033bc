import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import { api } from '../../api/client.ts';
import { useKeys } from '../../components/keys/use-keys.ts';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { CastingScreen } from './casting/casting-screen.tsx';
import { CastingTree } from './casting-tree.tsx';
import { CastingForm } from './forms/casting-form.tsx';
import { NamesScreen } from './names/names-screen.tsx';
import { SeenScreen } from './names/seen-screen.tsx';
import { SeriesScreen } from './names/series-screen.tsx';
import { NoReference } from './no-reference.tsx';
import { Overview } from './overview.tsx';
import classes from './reference.module.css';
import { SetScreen } from './sets/set-screen.tsx';
import { SetsScreen } from './sets/sets-screen.tsx';

const CastingsScreen = () => {
  const castings = useQuery({ queryKey: ['castings'], queryFn: () => api.reference.castings() });
  const [adding, setAdding] = useState(false);
  const [text, setText] = useState('');
  const [, navigate] = useLocation();
  useKeys('Reference', [{ keys: 'N', does: 'Add a casting', run: () => setAdding(true) }]);
  if (castings.error) return <ErrorState error={castings.error} retry={() => void castings.refetch()} />;
  if (!castings.data) return <LoadingState />;
  const rows = castings.data;
  const form = (
    <CastingForm
      opened={adding}
      castings={rows}
      onClose={() => setAdding(false)}
      onSaved={id => navigate(`/${id}`)}
    />
  );
  if (rows.length === 0)
    return (
      <>
        <NoReference onAdd={() => setAdding(true)} />
        {form}
      </>
    );
  const page = (id: string) => <CastingScreen key={id} id={Number(id)} castings={rows} />;
  return (
    <div className={classes.split}>
      <CastingTree castings={rows} text={text} onText={setText} onAdd={() => setAdding(true)} />
      <div className={classes.right}>
        <Switch>
          <Route path="/castings/:id">{({ id }) => page(id)}</Route>
          <Route path="/:id">{({ id }) => page(id)}</Route>
          <Route path="/">
            <Overview castings={rows} text={text} />
          </Route>
        </Switch>
      </div>
      {form}
    </div>
  );
};

const ReferenceScreen = () => (
  <Switch>
    <Route path="/names">
      <NamesScreen />
    </Route>
    <Route path="/seen">
      <SeenScreen />
    </Route>
    <Route path="/series">
      <SeriesScreen />
    </Route>
    <Route path="/sets">
      <SetsScreen />
    </Route>
    <Route path="/sets/:id">{({ id }) => <SetScreen key={id} id={Number(id)} />}</Route>
    <Route>
      <CastingsScreen />
    </Route>
  </Switch>
);

export default ReferenceScreen;
