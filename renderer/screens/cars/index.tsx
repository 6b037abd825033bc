import { Route, Switch } from 'wouter';
import { CarScreen } from './car/car-screen.tsx';
import { CarsScreen } from './list/cars-screen.tsx';

const Cars = () => (
  <Switch>
    <Route path="/:id">{({ id }) => <CarScreen key={id} id={Number(id)} />}</Route>
    <Route path="/">
      <CarsScreen />
    </Route>
  </Switch>
);

export default Cars;
