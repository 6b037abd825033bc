import { useLocation } from 'wouter';
import type { CarPage } from '../../../../electron/api/views.ts';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { listAddress } from '../list/last-list.ts';

/** The keys of a car's page that go somewhere; those of its parts are named where the parts are. */
export const useCarKeys = (car: CarPage, goTo: (id: string) => void): void => {
  const [, navigate] = useLocation();
  const walk = (id: number | null) => (id === null ? undefined : navigate(`/${id}`));
  useKeys('Car', [
    { keys: 'J ]', does: 'Next car', run: () => walk(car.nextId) },
    { keys: 'K [', does: 'Previous car', run: () => walk(car.previousId) },
    { keys: 'U', does: 'Up to all cars', run: () => navigate(`~${listAddress()}`) },
    { keys: 'W', does: 'Value', run: () => goTo('worth') },
    { keys: 'R', does: 'What to do', run: () => goTo('what-to-do') },
    { keys: 'L', does: 'Plan', run: () => goTo('plan') },
    { keys: 'E', does: 'Evidence', run: () => goTo('evidence') },
    { keys: 'D', does: 'Decide', run: () => goTo('decision') },
    { keys: 'S', does: car.disposal || car.isSeen ? 'Its sale' : 'Sell it', run: () => goTo('books') },
  ]);
};
