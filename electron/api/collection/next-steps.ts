import type { NextStep } from '../../../valuation/wording/next-step-text.ts';
import type { HomeView } from '../views.ts';
import type { HomeCounts } from './home-pieces.ts';

interface Known {
  counts: HomeCounts;
  saleRecords: number;
  castings: number;
  /** Its first steps are shown, and lead to the rest. */
  isYoung: boolean;
}

/** What the first steps of a young collection lead to. */
const leadsTo = new Set<NextStep['kind']>([
  'add-reference',
  'add-lot',
  'add-sale-records',
  'decide',
  'identify',
  'find-evidence',
]);

/**
 * What its owner would best do next, the most useful first; each with the number of cars and
 * the screen for it.
 */
export const nextSteps = ({ counts, saleRecords, castings, isYoung }: Known): HomeView['next'] => {
  const steps: HomeView['next'] = [];
  const add = (kind: NextStep['kind'], number: number, to: string) => {
    if (number > 0 && !(isYoung && leadsTo.has(kind))) steps.push({ kind, count: number, to });
  };
  if (castings === 0) add('add-reference', 1, '/reference');
  if (counts.cars === 0) add('add-lot', 1, '/lots');
  if (saleRecords === 0 && castings > 0) add('add-sale-records', 1, '/sales');
  add('decide', counts.keptPays, '/decide');
  add('identify', counts.unidentified, '/cars?show=unidentified');
  add('choose-variation', counts.openVariation, '/cars?show=open-variation');
  add('grade', counts.ungraded, '/cars?show=ungraded');
  add('find-evidence', counts.noWorth, '/cars?show=no-worth');
  add('photograph', counts.noPhotograph, '/cars?show=no-photograph');
  return steps;
};
