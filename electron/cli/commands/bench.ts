import { plainLocale } from '../../../valuation/wording/reader.ts';
import { workReasonText } from '../../../valuation/wording/work/work-text.ts';
import type { JobView } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { print, table } from '../terminal.ts';

const minutesOf = (seconds: number): number => Math.round(seconds / 60);

const shown = (job: JobView) => ({
  number: job.inventoryNumber,
  kind: job.kind,
  state: job.state,
  addedAt: job.addedAt,
  startedAt: job.startedAt,
  endedAt: job.endedAt,
  reason: job.reason,
  minutes: minutesOf(job.steps.reduce((sum, { seconds }) => sum + seconds, 0)),
  next: job.steps.find(({ state }) => state === 'to do')?.name ?? null,
  steps: job.steps.map(step => ({
    step: step.step,
    name: step.name,
    state: step.state,
    minutes: minutesOf(step.seconds),
    plannedMinutes: step.hands,
    runningSince: step.runningSince,
    waitsUntil: step.waitsUntil,
    spoiled: step.spoiled,
    note: step.note,
    why: step.why && workReasonText(step.why, plainLocale),
    hazards: step.hazards,
  })),
  used: job.uses.map(({ name, usedOn, minor, currency, part }) => ({ name, usedOn, minor, currency, part })),
});

/** `playworn bench`: the jobs in their order, with their steps and the time on them. */
export const bench = ({
  collection,
  json,
  all,
}: {
  collection: string;
  json?: boolean;
  all?: boolean;
}): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    const jobs = (await api.bench.list()).filter(
      ({ state }) => all || (state !== 'finished' && state !== 'given up'),
    );
    print(json, jobs.map(shown), list =>
      list.length === 0
        ? ['Nothing is on the bench: choose cars in Decide and put them there.']
        : table(
            ['Car', 'To', 'State', 'Steps', 'Minutes', 'Next'],
            list.map(job => [
              job.number,
              job.kind,
              job.state,
              `${job.steps.filter(({ state }) => state !== 'to do').length}/${job.steps.length}`,
              String(job.minutes),
              job.next ?? '',
            ]),
            [3, 4],
          ),
    );
  });
