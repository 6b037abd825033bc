import type { GridSort } from '../../../components/data-grid/types.ts';

export const wallOrders = {
  number: 'by number',
  name: 'by name',
  worth: 'highest value first',
  gain: 'highest gain first',
  grade: 'best grade first',
} as const;
export type WallOrder = keyof typeof wallOrders;

export const isWallOrder = (text: string | null): text is WallOrder =>
  text !== null && Object.hasOwn(wallOrders, text);

/** What the service sorts by for each; those without the figure come last, equal ones by number. */
export const wallSorts: Record<WallOrder, GridSort> = {
  number: { columnId: 'number' },
  name: { columnId: 'name' },
  worth: { columnId: 'found', descending: true },
  gain: { columnId: 'expected', descending: true },
  grade: { columnId: 'grade', descending: true },
};
