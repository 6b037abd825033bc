import { Route, Switch } from 'wouter';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { ImportScreen } from './import/import-screen.tsx';
import { LotScreen } from './lot/lot-screen.tsx';
import { LotsList } from './lots-list.tsx';
import { NewLot } from './new-lot.tsx';

const LotsScreen = () => (
  <Switch>
    <Route path="/new">
      <NewLot />
    </Route>
    <Route path="/import">
      <ImportScreen />
    </Route>
    <Route path="/:id">
      {({ id }) =>
        /^[1-9]\d{0,14}$/.test(id) ? (
          <LotScreen key={id} id={Number(id)} />
        ) : (
          <EmptyState title="Lot not found">Choose one from the list of lots.</EmptyState>
        )
      }
    </Route>
    <Route path="/">
      <LotsList />
    </Route>
  </Switch>
);

export default LotsScreen;
