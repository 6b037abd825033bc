import { listHistory } from '../../db/history.ts';
import { listRates, removeRate as removeRateRow, saveRate as saveRateRow } from '../../db/rates.ts';
import { readReportingCurrency, writeSetting } from '../../db/settings.ts';
import { redo as redoLast, undo as undoLast } from '../../db/undo.ts';
import { currencyDecimals } from '../../valuation/money.ts';
import { base, needsCollection } from './context.ts';
import { refused, toApiError } from './errors.ts';
import * as inputs from './inputs.ts';
import { summaryOf } from './summary.ts';
import type { CollectionState, CollectionSummary, ExchangeRateView, HistoryEntry } from './views.ts';

const state = base.handler(({ context }): CollectionState => context.session.state());

const create = base
  .input(inputs.createCollection)
  .handler(async ({ context, input }): Promise<CollectionState> => {
    currencyDecimals(input.reportingCurrency);
    await context.session.create(input.dir ?? context.session.options.defaultDir, input);
    return context.session.state();
  });

const open = base
  .input(inputs.openCollection)
  .handler(async ({ context, input }): Promise<CollectionState> => {
    await context.session.open(input.dir);
    return context.session.state();
  });

const summary = needsCollection.handler(
  ({ context }): Promise<CollectionSummary> => summaryOf(context.session),
);

const saveSettings = needsCollection
  .input(inputs.saveSettings)
  .handler(async ({ context, input }): Promise<CollectionSummary> => {
    const { session, db } = context;
    const before = await readReportingCurrency(db);
    if (input.reportingCurrency !== undefined) currencyDecimals(input.reportingCurrency);
    if (input.reportingCurrency !== undefined && input.reportingCurrency !== before)
      await refuseCurrencyChange(db, before);
    await session.act('Changed the settings', async trx => {
      if (input.owner !== undefined) await writeSetting(trx, 'owner', input.owner);
      if (input.name !== undefined) await writeSetting(trx, 'name', input.name);
      if (input.reportingCurrency !== undefined)
        await writeSetting(trx, 'reporting-currency', input.reportingCurrency);
    });
    return summaryOf(session);
  });

/** Amounts kept in the reporting currency would silently change their meaning with it. */
const refuseCurrencyChange = async (db: Parameters<typeof listRates>[0], before: string): Promise<void> => {
  const kept = [
    ['exchange rates', await db.selectFrom('exchange_rate').select('id').limit(1).execute()],
    ['plans', await db.selectFrom('restoration_plan').select('id').limit(1).execute()],
    [
      'own worths',
      await db.selectFrom('car').select('id').where('own_mid_minor', 'is not', null).limit(1).execute(),
    ],
    ['assumptions', await db.selectFrom('assumption_set').select('id').limit(1).execute()],
    ['past valuations', await db.selectFrom('valuation').select('id').limit(1).execute()],
  ] as const;
  const standing = kept.filter(([, rows]) => rows.length > 0).map(([what]) => what);
  if (standing.length > 0)
    throw refused(
      `The reporting currency stays ${before}: this collection keeps ${standing.join(', ')} in it. Start a new collection to report in another currency.`,
    );
};

const rates = needsCollection.handler(({ context }): Promise<ExchangeRateView[]> => listRates(context.db));

const saveRate = needsCollection.input(inputs.saveRate).handler(async ({ context, input }) => {
  const reporting = await readReportingCurrency(context.db);
  currencyDecimals(input.currency);
  if (input.currency === reporting)
    throw refused(`${reporting} is the reporting currency itself; its rate is always 1.`);
  await context.session.act(`Set the rate of ${input.currency} from ${input.on}`, trx =>
    saveRateRow(trx, input.currency, input.on, input.rate),
  );
});

const removeRate = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  await context.session.act('Removed an exchange rate', trx => removeRateRow(trx, input.id));
});

const history = needsCollection.handler(
  ({ context }): Promise<HistoryEntry[]> => listHistory(context.db, 100),
);

const step = (move: typeof undoLast) =>
  needsCollection.handler(async ({ context }): Promise<{ label: string } | null> => {
    try {
      const { label } = await move(context.collection);
      context.session.versions.touchAll();
      return { label };
    } catch (error) {
      const known = toApiError(error);
      if (typeof known === 'object' && known && 'data' in known) {
        const { data } = known as { data?: { reason?: string } };
        if (data?.reason === 'nothing-to-undo') return null;
      }
      throw error;
    }
  });

export const collection = {
  state,
  create,
  open,
  summary,
  saveSettings,
  rates,
  saveRate,
  removeRate,
  history,
  undo: step(undoLast),
  redo: step(redoLast),
};
