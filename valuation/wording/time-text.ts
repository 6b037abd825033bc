import type { TimeModel, TimeTrial, TimeUsed } from '../types.ts';
import { numberText } from './reader.ts';

const wayOf: Record<TimeModel, string> = {
  none: 'as they were',
  trend: 'by one steady trend',
  steps: 'by changes from year to year',
};

/** A mean of absolute logs as a percentage: "18.2 %". */
const errorText = (log: number, locale: string): string =>
  `${numberText(100 * Math.expm1(log), 1, locale)} %`;

const trialText = ({ records, errors }: TimeTrial, used: TimeModel, locale: string): string => {
  const others = (Object.keys(wayOf) as TimeModel[]).filter(model => model !== used);
  const each = others.map(model => `${errorText(errors[model], locale)} ${wayOf[model]}`).join(' and ');
  return `Tried on your latest ${records} sales, each estimated from those before it, the typical error was ${errorText(errors[used], locale)} that way, ${each}.`;
};

/** What prices did of late, by the steps that were fitted. */
const stepsText = (steps: TimeUsed['steps'], locale: string): string => {
  const [latest] = steps;
  if (!latest) return '';
  const change = (factor: number) =>
    `${factor < 1 ? '−' : '+'}${numberText(100 * Math.abs(factor - 1), 0, locale)} %`;
  const all = steps.reduce((product, { factor }) => product * factor, 1);
  return ` The last year counts as ${change(latest.factor)}, all years together as ${change(all)}.`;
};

/**
 * How old prices are taken, and why, in a sentence or three; empty where the owner gave a series of prices.
 */
export const timeText = ({ used, by, trial, steps }: TimeUsed, locale: string): string => {
  if (used === 'index') return '';
  const now = `Old prices are now ${used === 'none' ? 'used' : 'adjusted'} ${wayOf[used]}${by === 'owner' ? ', as you chose' : ''}.`;
  if (by === 'owner') return `${now}${stepsText(steps, locale)}`;
  if (!trial) return `${now} There are too few sales, or too few years of them, to tell how prices move.`;
  return `${now} ${trialText(trial, used, locale)}${stepsText(steps, locale)}`;
};
