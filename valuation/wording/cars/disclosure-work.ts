import type { IsoDate } from '../../types.ts';
import { type DeviationKind, deviationKinds, paintsCar, type WorkKind } from '../../words.ts';
import type { WorkFacts } from './disclosure-text.ts';

/** A record of finished work, as far as it is disclosed. Empty texts where nothing is said. */
export interface WorkRecord
  extends Pick<WorkFacts, 'fidelity' | 'closure' | 'bearings' | 'axles' | 'leftAsWas' | 'colour' | 'who'> {
  kind: WorkKind;
  finishedOn: IsoDate;
  departures: readonly DeviationKind[];
}

/**
 * What stands of all work on a car, from its records, the newest first: that of the last painting and what was done
 * since, because cleaning a restored car later takes back nothing of how it was opened, closed and painted. What
 * came before the last painting is in that one's record. Null where nothing is recorded.
 */
export const standingWork = (
  records: readonly WorkRecord[],
): (WorkFacts & { departures: readonly DeviationKind[] }) | null => {
  const painting = records.findIndex(({ kind }) => paintsCar(kind));
  const standing = painting < 0 ? records : records.slice(0, painting + 1);
  const base = standing.at(-1);
  if (!base) return null;
  const said = (text: (record: WorkRecord) => string) => standing.map(text).find(one => one !== '') ?? '';
  const closures = standing.map(({ closure }) => closure).filter(one => one !== '');
  return {
    finishedOn: base.finishedOn,
    who: base.who,
    colour: painting < 0 ? '' : base.colour,
    later: standing
      .slice(0, -1)
      .map(({ finishedOn, who }) => ({ finishedOn, who }))
      .reverse(),
    fidelity: standing.map(({ fidelity }) => fidelity).find(one => one !== null) ?? null,
    departures: deviationKinds.filter(kind => standing.some(({ departures }) => departures.includes(kind))),
    closure: closures.find(one => one !== 'not opened') ?? closures[0] ?? '',
    bearings: said(({ bearings }) => bearings),
    axles: said(({ axles }) => axles),
    leftAsWas: said(({ leftAsWas }) => leftAsWas),
  };
};
