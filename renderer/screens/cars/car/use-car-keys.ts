import { useLocation } from 'wouter';
import type { CarPage } from '../../../../electron/api/views.ts';
import { useKeys } from '../../../components/keys/key-registry.ts';
import { listAddress } from '../list/last-list.ts';

const press = (name: string) => document.querySelector<HTMLElement>(`[data-key="${name}"]`)?.click();
const focus = (name: string) => {
  const field = document.querySelector<HTMLElement>(`[data-key="${name}"]`);
  const control = field?.matches('input, select, textarea, button')
    ? field
    : field?.querySelector('select, input');
  if (control instanceof HTMLElement) control.focus();
};

/** The keys of a car's page. */
export const useCarKeys = (car: CarPage, goTo: (id: string) => void): void => {
  const [, navigate] = useLocation();
  const walk = (id: number | null) => (id === null ? undefined : navigate(`/${id}`));
  const condition = () => {
    goTo('condition');
    document.querySelector<HTMLElement>('#condition [data-part-grade]')?.focus({ preventScroll: true });
  };
  useKeys('Car', [
    { keys: 'J ]', does: 'Next car', run: () => walk(car.nextId) },
    { keys: 'K [', does: 'Previous car', run: () => walk(car.previousId) },
    { keys: 'U', does: 'Up to all cars', run: () => navigate(`~${listAddress()}`) },
    { keys: 'G', does: 'Grade it', run: () => focus('grade') },
    { keys: 'I', does: 'Identify it', run: () => press('identify') },
    { keys: 'P', does: 'Add photographs', run: () => press('add-photographs') },
    { keys: 'B', does: 'Compare before and after', run: () => press('compare') },
    { keys: 'N', does: 'New check of its condition', run: condition },
    { keys: 'W', does: 'Value', run: () => goTo('worth') },
    { keys: 'R', does: 'What to do', run: () => goTo('what-to-do') },
    { keys: 'L', does: 'Plan', run: () => goTo('plan') },
    { keys: 'E', does: 'Evidence', run: () => goTo('evidence') },
    { keys: 'D', does: 'Decide', run: () => goTo('decision') },
    { keys: 'S', does: car.disposal ? 'Its sale' : 'Sell it', run: () => goTo('books') },
  ]);
};
