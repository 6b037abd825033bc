import type { CarRow } from '../../../../electron/api/views.ts';
import { colourNow } from '../../../../valuation/wording/disclosure-text.ts';
import { readerWords } from '../../../components/words.ts';

/**
 * What a car is called: the name it was sold under, else its casting, else what was written, else that
 * it is not known.
 */
export const carTitle = (
  car: Pick<CarRow, 'releaseName' | 'casting' | 'asWritten' | 'inventoryNumber'>,
): string =>
  car.releaseName || car.casting || car.asWritten.casting || `Unidentified car ${car.inventoryNumber}`;

/**
 * What a car wears: the colour recorded of it with the one it was made in, that of its variation, or the one
 * that was written of it.
 */
export const carColour = (car: Pick<CarRow, 'features' | 'asWritten' | 'wornColour'>): string =>
  colourNow(car.features.colour || car.asWritten.colour || '', car.wornColour);

/** What must be said wherever a car is shown or sold whose finish is no longer the factory's. */
export const finishRecord = (state: CarRow['finishState']): string | null => {
  switch (state) {
    case 'restored':
      return 'Restored. It is shown, valued, reported and sold as restored.';
    case 'customised':
      return readerWords().spell('Customised. It is shown, valued, reported and sold as customised.');
    case 'stripped':
      return 'Stripped of its finish, and shown and valued as such.';
    case 'touched up':
      return 'Touched up. It is shown, valued, reported and sold as touched up.';
    case 'original':
      return null;
  }
};
