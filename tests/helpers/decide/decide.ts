import type { DecisionSummary, ListOrder } from '../../../electron/api/views.ts';
import { everything, type Filter } from '../../../renderer/screens/decide/filter/filter.ts';
import type { Api } from '../api.ts';

/** The order of a list of decisions; as the cars were entered unless a column is named. */
export const orderBy = (columnId: string | null = null, descending = false): ListOrder => ({
  sort: columnId === null ? null : { columnId, descending },
  since: '',
  locale: 'en-GB',
});

/** The cars to decide, in one window. */
export const carsToDecide = async (
  { decisions }: Pick<Api, 'decisions'>,
  filter: Partial<Filter> = {},
  order = orderBy(),
): Promise<DecisionSummary[]> =>
  (await decisions.window({ filter: { ...everything, ...filter }, order, from: 0, count: 2000 })).rows;
