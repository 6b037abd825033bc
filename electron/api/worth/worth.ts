import { readSubjects } from '../../../db/engine/subjects.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { saveValuations } from '../../../db/records/worth/valuations.ts';
import { explainWorth, type Subject, type TimeUsed, valueCar } from '../../../valuation/index.ts';
import { counted } from '../../../valuation/wording/reader.ts';
import type { EvidenceCount } from '../../../valuation/wording/values/evidence-text.ts';
import { basisOfWorths } from '../../../valuation/words.ts';
import { findCar } from '../cars/find-car.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import { marketOn, marketToday } from '../figures/market.ts';
import { ownedOf } from '../figures/owned.ts';
import { valueCars } from '../figures/value-cars.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import { streamed } from '../session/progress.ts';
import type { DiagnosticsView, ValuationList, WorthExplanation } from '../views.ts';
import { diagnosticsView } from './diagnostics.ts';
import { evidenceCount } from './evidence-count.ts';
import { explainedRecords } from './explained-records.ts';

const explain = needsCollection
  .input(inputs.explainWorth)
  .handler(async ({ context, input }): Promise<WorthExplanation> => {
    const { session, db } = context;
    const car = await findCar(db, input.carId);
    const [subject] = (await readSubjects(db, [car])) as [Subject];
    const fitted = await marketToday(session);
    const valuation = valueCar(fitted, subject);
    return {
      which: input.which,
      worth: valuation[input.which],
      evidence: valuation.evidence,
      records: await explainedRecords(session, car, explainWorth(fitted, subject, input.which)),
      help: valuation.help,
    };
  });

/** The worths of every car that is not sold, on the effective date or an earlier one. */
const list = needsCollection
  .input(inputs.onDate)
  .handler(({ context, input, signal }) =>
    streamed<ValuationList>((report, stop) => valueCars(context.session, input.on, report, stop), signal),
  );

/** Keeps today's worths (or those of an earlier day) of every car of the owner's, to look back on. */
const takeSnapshot = needsCollection
  .input(inputs.onDate)
  .handler(async ({ context, input }): Promise<{ cars: number; on: string }> => {
    const { session, db } = context;
    const today = await session.today();
    const on = input.on ?? today;
    if (on > today) throw refused(`Values cannot be saved for a future date; today is ${today}.`);
    const fitted = on === today ? await marketToday(session) : await marketOn(session, on);
    const cars = await ownedOf(session, await listCars(db));
    const subjects = await readSubjects(db, cars);
    const assumptions = await assumptionsInForce(session);
    const snapshots = subjects.map(subject => {
      const { asFound, restored, originalFinish, evidence } = valueCar(fitted, subject);
      const range = (worth: typeof asFound) => worth && { low: worth.low, mid: worth.mid, high: worth.high };
      return {
        carId: subject.id,
        on,
        currency: fitted.reportingCurrency,
        basis: basisOfWorths,
        asFound: range(asFound),
        restored: range(restored),
        originalFinish: range(originalFinish),
        evidence,
      };
    });
    await session.bulk(`Saved the values of ${counted(cars.length, 'car')} on ${on}`, trx =>
      saveValuations(trx, snapshots, session.at(), assumptions.id),
    );
    return { cars: cars.length, on };
  });

const diagnostics = needsCollection.handler(
  ({ context }): Promise<DiagnosticsView> => diagnosticsView(context.session),
);

/** How old prices are taken today, and why. */
const time = needsCollection.handler(
  async ({ context }): Promise<TimeUsed> => (await marketToday(context.session)).time,
);

const evidence = needsCollection.handler(
  ({ context }): Promise<EvidenceCount> => evidenceCount(context.session),
);

export const worth = { explain, list, takeSnapshot, diagnostics, time, evidence };
