import { setImmediate } from 'node:timers/promises';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { addAssumptions } from '../../../db/records/assumptions.ts';
import { listCars } from '../../../db/records/cars.ts';
import { readSetting, writeSetting } from '../../../db/records/settings.ts';
import { atHourlyRate, currencyDecimals, recommendCar } from '../../../valuation/index.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import { marketToday } from '../figures/market.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import type { ValueOfAnHour } from '../views.ts';

/** Set once the owner has said what an hour is worth to them, also where that is nothing. */
const setting = 'hour-valued';
/** What is tried, in whole units of a currency with decimals. */
const tried = [0, 5, 10, 20];

/**
 * How many cars pay for work at several values of an hour; null once the owner has answered, or where no car
 * pays at any.
 */
export const valueOfAnHour = needsCollection.handler(
  async ({ context, signal }): Promise<ValueOfAnHour | null> => {
    const { session, db } = context;
    const { body } = await assumptionsInForce(session);
    if (body.hourlyRate !== 0 || (await readSetting(db, setting)) !== undefined) return null;
    const fitted = await marketToday(session);
    const cars = (await listCars(db)).filter(({ status }) => status !== 'sold');
    const subjects = await readSubjects(db, cars);
    const unit = 10 ** Math.max(2, currencyDecimals(fitted.reportingCurrency));
    const rates: ValueOfAnHour['rates'] = [];
    for (const one of tried) {
      const at = atHourlyRate(fitted, one * unit);
      let pay = 0;
      for (const [i, subject] of subjects.entries()) {
        if (i % 100 === 99) {
          await setImmediate();
          signal?.throwIfAborted();
        }
        const { recommendation } = recommendCar(at, subject);
        if (recommendation === 'conserve' || recommendation === 'restore' || recommendation === 'customise')
          pay += 1;
      }
      rates.push({ rate: one * unit, cars: pay });
    }
    return rates[0]!.cars === 0 ? null : { currency: fitted.reportingCurrency, rates };
  },
);

/**
 * Saves what an hour is worth, as a version of the assumptions where it changes them; it is not asked again.
 */
export const setValueOfAnHour = needsCollection
  .input(inputs.valueOfAnHour)
  .handler(async ({ context, input: { rate } }) => {
    const { session } = context;
    const { body } = await assumptionsInForce(session);
    await session.act('Said what an hour at the bench is worth', async trx => {
      await writeSetting(trx, setting, String(rate));
      if (rate === body.hourlyRate) return;
      const { steps: _, ...work } = body.work;
      await addAssumptions(trx, { ...body, work, hourlyRate: rate }, 'What an hour is worth', session.at());
    });
  });
