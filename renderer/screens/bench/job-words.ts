import type { JobView } from '../../../electron/api/views.ts';
import { readerLocale } from '../../components/format.ts';

type Step = JobView['steps'][number];

export const isOver = ({ state }: Pick<JobView, 'state'>): boolean =>
  state === 'finished' || state === 'given up';

/** Seconds as minutes, or hours and minutes: "45 min", "1 h 20 min". */
export const timeText = (seconds: number): string => {
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  const rest = minutes % 60;
  return rest === 0 ? `${Math.floor(minutes / 60)} h` : `${Math.floor(minutes / 60)} h ${rest} min`;
};

/** What was planned for a step: "10–20 min of hands, then 12 h of waiting". */
export const plannedText = ({ hands, waiting }: Step): string => {
  const minutes = ({ low, high }: Step['hands']) =>
    low === high
      ? timeText(low * 60)
      : high < 60
        ? `${low}–${high} min`
        : `${timeText(low * 60)} to ${timeText(high * 60)}`;
  const words = [
    hands.high > 0 ? minutes(hands) : '',
    waiting.likely > 0 ? `waits ${timeText(waiting.likely * 60)}` : '',
  ];
  return words.filter(Boolean).join(', ');
};

/** The time of day of an instant, with the day where it is another one than `now`. */
export const momentText = (at: string, now: Date): string => {
  const date = new Date(at);
  const sameDay = date.toDateString() === now.toDateString();
  return new Intl.DateTimeFormat(readerLocale(), {
    ...(sameDay ? {} : { weekday: 'short', day: 'numeric', month: 'short' }),
    hour: 'numeric',
    minute: '2-digit',
  }).format(date);
};

/** Steps that are done or left out, of all. */
export const progressOf = ({ steps }: JobView) => ({
  over: steps.filter(({ state }) => state !== 'to do').length,
  all: steps.length,
});

/** The step to go on with: one whose clock runs, else the first that is to do. */
export const stepAt = ({ steps }: JobView): Step | undefined =>
  steps.find(({ runningSince }) => runningSince !== null) ?? steps.find(({ state }) => state === 'to do');
