import { useState } from 'react';
import type { DecisionSummary } from '../../../../electron/api/views.ts';
import { advisesAnything } from '../../../../valuation/words.ts';
import type { DecideListState } from '../list/use-decide-list.ts';
import type { ToRecord } from './record-dialog.tsx';
import { mostRecorded, type Planned } from './season.ts';

const recommendedOf = (cars: readonly DecisionSummary[]): ToRecord[] =>
  cars
    .flatMap((weighed): ToRecord[] => {
      const { recommendation } = weighed.car;
      return advisesAnything(recommendation) ? [{ weighed, choice: recommendation }] : [];
    })
    .slice(0, mostRecorded);

/**
 * Which decisions are being recorded, if any: those that are recommended for the cars selected (so many:
 * `asRecommended`), or those that a season's cars were planned in for.
 */
export const useRecord = ({ withSelected, advised }: Pick<DecideListState, 'withSelected' | 'advised'>) => {
  const [recording, setRecording] = useState<ToRecord[] | null>(null);
  return {
    recording,
    asRecommended: Math.min(advised, mostRecorded),
    recordSelected: () =>
      void withSelected(cars => {
        const list = recommendedOf(cars);
        if (list.length > 0) setRecording(list);
      }),
    recordPlanned: (cars: readonly Planned[]) =>
      setRecording(cars.map(({ weighed, offer }) => ({ weighed, choice: offer.option }))),
    close: () => setRecording(null),
  };
};
