import type { FinishedWork } from '../../../db/records/bench/finished-work.ts';
import type { Job } from '../../../db/records/bench/jobs.ts';
import type { LineChange, OwnLine, PlanWishes } from '../../../valuation/index.ts';
import { deviationOfOpening, deviationOfReproduction, partNames } from '../../../valuation/words.ts';

/** What follows from the parts and the closure of the other car. */
const itsOwn = new Set<string>([deviationOfOpening, ...Object.values(deviationOfReproduction)]);

/**
 * What a plan must be asked for to do another car as this one was done: its closure, the steps that were left
 * out, the owner's own steps, and for each step that was timed the minutes that it took in place of those
 * that were planned.
 */
export const asDone = (job: Job, work: FinishedWork | undefined): PlanWishes => {
  const changed: Record<string, LineChange> = {};
  const added: OwnLine[] = [];
  const without: string[] = [];
  let behind: string | null = null;
  for (const { step, name, part, state, hands, waiting, hazards, why, seconds } of job.steps) {
    if (state === 'left out') without.push(step);
    if (state !== 'done') continue;
    const took = Math.max(1, Math.round(seconds / 60));
    const time = seconds > 0 ? { low: took, likely: took, high: took } : hands;
    const isOwn =
      step === '' || (why !== null && typeof why === 'object' && 'kind' in why && why.kind === 'owner');
    if (isOwn)
      added.push({
        id: step === '' ? `own-${added.length + 1}` : step,
        name,
        part: partNames.find(known => known === part) ?? null,
        hands: time,
        waiting,
        cost: { low: 0, likely: 0, high: 0 },
        hazards,
        behind,
      });
    else if (seconds > 0) changed[step] = { hands: time };
    behind = step || behind;
  }
  const closure = work?.closure;
  const departures = (work?.departures ?? []).filter(kind => !itsOwn.has(kind));
  return {
    ...(without.length > 0 && { without }),
    ...(Object.keys(changed).length > 0 && { changed }),
    ...(added.length > 0 && { added }),
    ...(closure && closure !== 'not opened' && { closure }),
    ...(departures.length > 0 && { departures }),
  };
};
