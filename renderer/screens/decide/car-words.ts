import type { CarRow, WeighedCar } from '../../../electron/api/views.ts';
import type { Option } from '../../../valuation/words.ts';

/** What a car is called in a line: the name it was sold under, its casting, or what was written of it. */
export const carName = (
  car: Pick<CarRow, 'releaseName' | 'casting' | 'asWritten' | 'inventoryNumber'>,
): string => car.releaseName ?? car.casting ?? (car.asWritten.casting || 'Unidentified');

export const doing: Record<Option, string> = {
  leave: 'leaving it',
  conserve: 'conserving',
  restore: 'restoring',
  customise: 'customising',
  donor: 'using it for parts',
};

/** What the figures of a car are about: "Restore it", or for a car to leave "Nearest is conserving". */
export const shownPhrase = ({ car, shown }: WeighedCar): string => {
  if (!shown) return 'Not enough evidence';
  const words = doing[shown.option];
  return car.recommendation === 'leave'
    ? `Leave it; nearest is ${words}`
    : `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
};
