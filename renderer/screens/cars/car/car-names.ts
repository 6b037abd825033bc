import type { CarRow } from '../../../../electron/api/views.ts';
import { readerWords } from '../../../components/words.ts';

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
