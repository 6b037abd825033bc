import { readDecisions, type StoredDecision } from '../../../db/records/decisions/decisions.ts';
import {
  amountCell,
  type DataTable,
  type ListColumn,
  listTable,
  numberCell,
  textCell,
} from '../../../reports/tables/data-table.ts';
import { decideFilterIn, lookIn } from '../../../valuation/reading/list-address.ts';
import type { Currency } from '../../../valuation/types.ts';
import { turningText } from '../../../valuation/wording/values/reason-text.ts';
import type { CarStanding } from '../../../valuation/words.ts';
import { decideCars, weighedByIds } from '../decisions/decide-cars.ts';
import { carsToDecide } from '../decisions/decide-list.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { DecisionSummary } from '../views.ts';
import { orderOf, type Seen } from './as-seen.ts';
import { decisionColumns } from './ledger-tables.ts';

interface WeighedRow {
  weighed: DecisionSummary;
  standing: CarStanding;
  why: string;
  decision: StoredDecision | undefined;
}

/** What the list of Decide shows, and of a decision all that the list of decisions has, by the same names. */
const columnsIn = (currency: Currency): ListColumn<WeighedRow>[] => [
  { name: 'inventory_number', width: 16, value: ({ weighed }) => textCell(weighed.car.inventoryNumber) },
  { name: 'finish_state', width: 13, value: ({ weighed }) => textCell(weighed.car.finishState) },
  { name: 'season', width: 10, value: ({ standing }) => textCell(standing) },
  { name: 'casting', width: 20, value: ({ weighed }) => textCell(weighed.car.casting) },
  { name: 'release_name', width: 20, value: ({ weighed }) => textCell(weighed.car.releaseName) },
  { name: 'colour', width: 14, value: ({ weighed }) => textCell(weighed.car.features.colour) },
  { name: 'worn_colour', width: 14, value: ({ weighed }) => textCell(weighed.car.wornColour) },
  { name: 'grade', width: 8, value: ({ weighed }) => numberCell(weighed.car.grade) },
  { name: 'currency', width: 10, value: () => textCell(currency) },
  ...(['low', 'mid', 'high'] as const).map(
    (end): ListColumn<WeighedRow> => ({
      name: `as_found_${end}`,
      width: 14,
      value: ({ weighed }) => amountCell(weighed.car.worths.asFound?.[end], currency),
    }),
  ),
  { name: 'weighed', width: 12, value: ({ weighed }) => textCell(weighed.shown?.option) },
  ...(['low', 'mid', 'high'] as const).map(
    (end): ListColumn<WeighedRow> => ({
      name: `cost_${end}`,
      width: 12,
      value: ({ weighed }) => amountCell(weighed.shown?.cost[end], currency),
    }),
  ),
  {
    name: 'expected_gain',
    width: 14,
    value: ({ weighed }) => amountCell(weighed.shown?.expectedGain, currency),
  },
  {
    name: 'probability_percent',
    width: 19,
    value: ({ weighed: { shown } }) => numberCell(shown && Math.round(shown.probability * 100)),
  },
  // What was recommended when it was decided is `recommended`, as in the list of decisions.
  { name: 'recommended_now', width: 20, value: ({ weighed }) => textCell(weighed.car.recommendation) },
  { name: 'why', width: 40, value: ({ why }) => textCell(why) },
  ...decisionColumns.map(
    ({ name, width, value }): ListColumn<WeighedRow> => ({
      name,
      width,
      value: ({ decision }) => (decision ? value(decision) : null),
    }),
  ),
];

/** So many cars are weighed at once; of each only what goes out stays. */
const atOnce = 1000;

/** The cars that may be worked on as their list shows them, with what is recommended and what was decided. */
export const decideAsSeen = async (
  session: Session,
  { query, locale }: Seen,
  currency: Currency,
): Promise<DataTable> => {
  const order = orderOf(lookIn(query), { columnId: 'gain', descending: true }, 'number', locale);
  const shown = await carsToDecide(session, { filter: decideFilterIn(query), order });
  const { standingOf } = await decideCars(session);
  const decisions = await readDecisions(openOf(session).read.db);
  const columns = columnsIn(currency);
  const rows: ReturnType<ListColumn<WeighedRow>['value']>[][] = [];
  for (let from = 0; from < shown.length; from += atOnce) {
    const ids = shown.slice(from, from + atOnce).map(({ id }) => id);
    for (const weighed of await weighedByIds(session, ids)) {
      const { id } = weighed.car;
      const row = {
        weighed,
        standing: standingOf(id),
        why: turningText(weighed.turnsOn, { locale, currency }),
        decision: decisions.get(id),
      };
      rows.push(columns.map(column => column.value(row)));
    }
  }
  return { ...listTable('Decide', columns, []), count: rows.length, rows: () => rows };
};
