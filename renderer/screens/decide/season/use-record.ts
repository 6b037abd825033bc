import { useState } from 'react';
import type { DecisionSummary } from '../../../../electron/api/views.ts';
import type { ToRecord } from './record-dialog.tsx';
import { mostRecorded, type Planned } from './season.ts';

/**
 * Which decisions are being recorded, if any: those that are recommended for the cars selected
 * (`asRecommended`), or those that a season's cars were planned in for.
 */
export const useRecord = (byId: ReadonlyMap<number, DecisionSummary>, selected: readonly number[]) => {
  const [recording, setRecording] = useState<ToRecord[] | null>(null);
  const asRecommended = selected
    .flatMap((id): ToRecord[] => {
      const weighed = byId.get(id);
      const word = weighed?.car.recommendation;
      return weighed && word && word !== 'not-enough-evidence' ? [{ weighed, choice: word }] : [];
    })
    .slice(0, mostRecorded);
  return {
    recording,
    asRecommended,
    recordSelected: () => {
      if (asRecommended.length > 0) setRecording(asRecommended);
    },
    recordPlanned: (cars: readonly Planned[]) =>
      setRecording(cars.map(({ weighed, offer }) => ({ weighed, choice: offer.option }))),
    close: () => setRecording(null),
  };
};
