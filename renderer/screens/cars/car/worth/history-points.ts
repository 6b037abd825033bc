import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Range } from '../../../../../valuation/types.ts';

/** Pixels; held free until the chart is there. */
export const chartHeight = 180;

export interface HistoryPoint {
  time: number;
  on: string;
  band: [number, number] | null;
  asFound: number | null;
  restored: number | null;
  originalFinish: number | null;
}

export const historyLines = [
  { key: 'asFound', name: 'as found', colour: 'var(--worth-found)', dash: '' },
  { key: 'restored', name: 'restored, before cost', colour: 'var(--worth-restored)', dash: '6 3' },
  { key: 'originalFinish', name: 'original finish', colour: 'var(--worth-original)', dash: '2 3' },
] as const;

const middle = (range: Range | null): number | null => range?.mid ?? null;

/** A point for each saved valuation of a car, amounts in minor units. */
export const historyPoints = (valuations: CarPage['valuations']): HistoryPoint[] =>
  valuations.map(({ on, asFound, restored, originalFinish }) => ({
    time: Date.parse(`${on}T00:00:00Z`),
    on,
    band: asFound && [asFound.low, asFound.high],
    asFound: middle(asFound),
    restored: middle(restored),
    originalFinish: middle(originalFinish),
  }));
