import type { Kysely } from 'kysely';
import {
  heldInReportingCurrency,
  readReportingCurrency,
  writeSetting,
} from '../../../db/records/collection/settings.ts';
import { listParts, savePart as savePartRow } from '../../../db/records/plans/parts.ts';
import { addAssumptions, assumptionVersions } from '../../../db/records/worth/assumptions.ts';
import {
  listRates,
  removeRate as removeRateRow,
  saveRate as saveRateRow,
} from '../../../db/records/worth/rates.ts';
import type { Schema } from '../../../db/schema.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import { assumptionsSchema } from '../figures/assumptions-schema.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { Session } from '../session/session.ts';
import type { AssumptionsView, CollectionSummary, ExchangeRateView, PartStock } from '../views.ts';
import { summaryOf } from './summary.ts';

/** Amounts kept in the reporting currency would silently change their meaning with it. */
const refuseCurrencyChange = async (db: Kysely<Schema>, before: string): Promise<void> => {
  const held = await heldInReportingCurrency(db);
  const names = [
    held.rates && 'exchange rates',
    held.plans && 'plans',
    held.assumptions && 'assumptions',
    held.valuations && 'past valuations',
    held.ownValues && 'values of your own',
  ].filter(Boolean);
  if (names.length > 0)
    throw refused(
      `The reporting currency stays ${before}: this collection has ${names.join(', ')} in it. Start a new collection to report in another currency.`,
    );
};

const saveSettings = needsCollection
  .input(inputs.saveSettings)
  .handler(async ({ context, input }): Promise<CollectionSummary> => {
    const { session, db } = context;
    const { owner, name, reportingCurrency } = input;
    const before = await readReportingCurrency(db);
    if (reportingCurrency !== undefined && reportingCurrency !== before) {
      await refuseCurrencyChange(db, before);
    }
    await session.act('Changed the settings', async trx => {
      if (owner !== undefined) await writeSetting(trx, 'owner', owner);
      if (name !== undefined) await writeSetting(trx, 'name', name);
      if (reportingCurrency !== undefined) await writeSetting(trx, 'reporting-currency', reportingCurrency);
    });
    return summaryOf(session);
  });

const rates = needsCollection.handler(({ context }): Promise<ExchangeRateView[]> => listRates(context.db));

const saveRate = needsCollection.input(inputs.saveRate).handler(async ({ context, input }) => {
  const reporting = await readReportingCurrency(context.db);
  if (input.currency === reporting)
    throw refused(`${reporting} is the reporting currency itself; its rate is always 1.`);
  await context.session.act(`Set the rate of ${input.currency} from ${input.on}`, trx =>
    saveRateRow(trx, input.currency, input.on, input.rate),
  );
});

const removeRate = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const rate = (await listRates(context.db)).find(one => one.id === input.id);
  if (!rate) throw notFound('exchange rate', input.id);
  await context.session.act(`Removed the rate of ${rate.currency} from ${rate.on}`, trx =>
    removeRateRow(trx, input.id),
  );
});

const assumptionsView = async (session: Session, db: Kysely<Schema>): Promise<AssumptionsView> => {
  const { id, version, note, madeAt, body, unreadable } = await assumptionsInForce(session);
  return {
    version,
    note: unreadable
      ? `Version ${version} cannot be read by this version of Playworn; the starting points are used instead.`
      : note,
    madeAt,
    body,
    untouched: id === null,
    versions: await assumptionVersions(db),
  };
};

const assumptions = needsCollection.handler(({ context }) => assumptionsView(context.session, context.db));

/** Keeps a new version; a body with a figure outside sense is refused with the place of each. */
const saveAssumptions = needsCollection
  .input(inputs.saveAssumptions)
  .handler(async ({ context, input }): Promise<AssumptionsView> => {
    const { session, db } = context;
    const read = assumptionsSchema.safeParse(input.body);
    if (!read.success) {
      const places = read.error.issues
        .slice(0, 5)
        .map(issue => `${issue.path.join(' › ')}: ${issue.message}`);
      throw refused(`These assumptions cannot be saved: ${places.join('; ')}.`, 'assumptions');
    }
    await session.act('Changed the assumptions', trx =>
      addAssumptions(trx, read.data, input.note, session.at()),
    );
    return assumptionsView(session, db);
  });

const parts = needsCollection.handler(({ context }): Promise<PartStock[]> => listParts(context.db));

const savePart = needsCollection.input(inputs.savePart).handler(async ({ context, input }) => {
  const { id, currency, unit } = input;
  if (id !== undefined && !(await listParts(context.db)).some(part => part.id === id))
    throw notFound('part', id);
  if (unit !== null && currency === null) throw refused('A price needs its currency.');
  await context.session.act(`${id === undefined ? 'Added' : 'Changed'} the part ${input.name}`, trx =>
    savePartRow(trx, input),
  );
});

export const settings = {
  saveSettings,
  rates,
  saveRate,
  removeRate,
  assumptions,
  saveAssumptions,
  parts,
  savePart,
};
