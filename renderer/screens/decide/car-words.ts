import type { CarRow, DecisionSummary } from '../../../electron/api/views.ts';
import { sentenceCase } from '../../../valuation/wording/reader.ts';
import { readerWords } from '../../components/words.ts';

/** What a car is called in a line: the name it was sold under, its casting, or what was written of it. */
export const carName = (
  car: Pick<CarRow, 'releaseName' | 'casting' | 'asWritten' | 'inventoryNumber'>,
): string => car.releaseName ?? car.casting ?? (car.asWritten.casting || 'Unidentified');

/** What the figures of a car are about: "Restore it", or for a car to leave "Nearest is conserving". */
export const shownPhrase = ({ car, shown }: DecisionSummary): string => {
  if (!shown) return 'Not enough evidence';
  const words = readerWords().option(shown.option).doing;
  return car.recommendation === 'leave' ? `Leave it; nearest is ${words}` : sentenceCase(words);
};
