import type { z } from 'zod';
import { readSetting } from '../../../db/records/collection/settings.ts';
import { findLot } from '../../../db/records/lots/lots.ts';
import { bases } from '../../../reports/model/basis.ts';
import { limitParagraphs, methodParagraphs } from '../../../reports/model/method.ts';
import type { CollectionReport, ReportEntry } from '../../../reports/types.ts';
import { reportTitle } from '../../../valuation/wording/report-title.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import { marketOn, marketToday } from '../figures/market.ts';
import { seenLotsOf } from '../figures/owned.ts';
import type { makeReport } from '../inputs.ts';
import { notFound, refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { OnProgress } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import { changesOf, saidBody } from './report-changes.ts';
import { type EntriesWanted, reportEntries } from './report-entries.ts';

export type ReportWanted = z.output<typeof makeReport> & Pick<EntriesWanted, 'withSeen'>;

const untold = { range: null, expected: null, own: false, note: null };

/** An entry of a copy that tells neither values nor prices; what was not understood may be a price. */
const withoutValue = (entry: ReportEntry): ReportEntry => ({
  ...entry,
  worths: { asFound: untold, restored: untold, originalFinish: untold },
  basis: null,
  restorationCost: null,
  evidence: null,
  acquisition: entry.acquisition && { ...entry.acquisition, cost: null, currency: null },
  notUnderstood: null,
  ...(entry.listed && { listed: { ...entry.listed, ownWorth: null, purchaseLeftOut: null } }),
});

const scopeOf = async (session: Session, wanted: ReportWanted): Promise<string | null> => {
  if (wanted.lotId !== undefined) {
    const lot = await findLot(openOf(session).read.db, wanted.lotId);
    if (!lot) throw notFound('lot', wanted.lotId);
    return `Lot: ${lot.name}`;
  }
  if (!wanted.carIds) return null;
  return wanted.carIds.length === 1 ? 'One car' : `A choice of ${wanted.carIds.length} cars`;
};

/** Gathers all that a report says, as plain data. Refused where there is no car to report. */
export const reportData = async (
  session: Session,
  wanted: ReportWanted,
  onProgress: OnProgress,
  signal: AbortSignal,
): Promise<CollectionReport> => (await saidReport(session, wanted, onProgress, signal)).report;

/** The same, with what it says of each car as it is noted where the report is saved (JSON). */
export const saidReport = async (
  session: Session,
  wanted: ReportWanted,
  onProgress: OnProgress,
  signal: AbortSignal,
): Promise<{ report: CollectionReport; said: string }> => {
  const { db } = openOf(session).read;
  const today = await session.today();
  const on = wanted.on ?? today;
  if (on > today) throw refused(`Values are not known for a future date; today is ${today}.`);
  const scope = await scopeOf(session, wanted);
  const fitted = on === today ? await marketToday(session) : await marketOn(session, on);
  const { version, body } = await assumptionsInForce(session);
  const { entries, said, sums } = await reportEntries(session, wanted, { fitted, onProgress, signal });
  if (entries.length === 0)
    throw refused(
      wanted.lotId !== undefined && (await seenLotsOf(session)).has(wanted.lotId)
        ? 'This lot was only seen: a report tells what you have. Print its bid sheet, or save the lot as bought.'
        : 'There is no car to report. Add cars, or choose others.',
    );
  const { withoutValues } = wanted;
  const told = withoutValues ? said.map(car => ({ ...car, value: null })) : said;
  const currency = fitted.reportingCurrency;
  const report: CollectionReport = {
    title: reportTitle(wanted.title, wanted.lotId !== undefined),
    owner: (await readSetting(db, 'owner')) ?? '',
    collection: (await readSetting(db, 'name')) ?? '',
    scope,
    basis: bases[wanted.basis],
    effectiveOn: on,
    preparedOn: wanted.sayPrepared ? session.at() : null,
    stampedAt: session.options.stampedAt ?? `${on}T00:00:00Z`,
    currency,
    withoutValues,
    changes: wanted.withChanges ? await changesOf(session, wanted, { on, currency, said: told }) : null,
    locale: wanted.locale,
    assumptionsVersion: version === 0 ? 'starting points' : `version ${version}`,
    method: methodParagraphs(body),
    sums: withoutValues ? {} : sums,
    limits: limitParagraphs(withoutValues),
    entries: withoutValues ? entries.map(withoutValue) : entries,
  };
  return { report, said: saidBody(wanted, told) };
};
