import { makeDisposals, makeExpenses, type Share, shareLots } from './cars/books.ts';
import { type DemoCar, makeCars } from './cars/cars.ts';
import type { DemoCondition } from './cars/condition.ts';
import { lotCostRows, lotPlans, lotRows } from './cars/lots.ts';
import { makeReference } from './castings/reference.ts';
import type { DemoContent, Row } from './content.ts';
import { addDays, instant } from './dates.ts';
import { customTin } from './drawing/surface/finish.ts';
import { makeMarket } from './market/market.ts';
import { oddSales } from './market/odd-sales.ts';
import { rateRows } from './market/rates.ts';
import { drawSales, saleRows } from './market/sales.ts';
import { makePhotos } from './photos.ts';
import { randomFrom } from './random.ts';
import { partRows } from './shelf.ts';
import { makeSnapshots } from './snapshots.ts';
import { makeDecisions } from './work/decisions.ts';
import { makePlans } from './work/plans.ts';

const saleRecords = 600;

/** The whole demo as plain rows and photographs to draw; the same every time. */
export const demoContent = (): DemoContent => {
  const reference = makeReference();
  const market = makeMarket(reference);
  const cars = makeCars(reference, market);
  const shares = shareLots(market, cars);
  const disposals = makeDisposals(market, cars);
  const odd = oddSales(reference, market);
  const drawn = drawSales(reference, market, saleRecords - odd.length - disposals.sales.length);
  const { checks, parts } = checkRows(cars);
  const { castings: _castings, variations: _variations, ...referenceRows } = reference;
  return {
    tables: {
      ...referenceRows,
      lot: lotRows,
      lot_cost: lotCostRows,
      car: cars.map(car => carRow(car, shares.get(car.id)!)),
      car_candidate: cars
        .flatMap(car => car.candidates.map(variation_id => ({ car_id: car.id, variation_id })))
        .map((one, i) => ({ id: i + 1, ...one })),
      condition_check: checks,
      part_grade: parts,
      disposal: disposals.rows,
      sale_record: saleRows([...drawn, ...odd, ...disposals.sales]),
      exchange_rate: rateRows,
      part: partRows,
      decision: makeDecisions(cars),
      expense: makeExpenses(cars),
      word: [],
      settled_name: [],
      parted_names: [],
      settled_variation: [],
      belief: [],
    },
    plans: makePlans(cars),
    photos: makePhotos(reference, cars),
    snapshots: makeSnapshots(cars),
  };
};

/** The owner's own figures for two cars that the records cannot value. */
const ownFigures = [
  { low: 600, mid: 1200, high: 2500 },
  { low: 400, mid: 900, high: 1800 },
];

const carRow = (car: DemoCar, share: Share): Row<'car'> => {
  const bought = lotPlans[car.lot - 1]!.boughtOn;
  const own = car.identified === 'no' ? ownFigures[car.id % ownFigures.length] : undefined;
  const known = car.identified === 'variation';
  return {
    id: car.id,
    inventory_number: car.number,
    lot_id: car.lot,
    casting_id: car.identified === 'no' ? null : car.variation.castingId,
    release_id: known ? car.variation.releaseId : null,
    variation_id: known ? car.variation.id : null,
    as_written: JSON.stringify(car.asWritten),
    grade_half: car.now.grade * 2,
    finish_state: car.now.finishState,
    // As its photographs show it; a car that was restored wears what it was made in.
    ...(car.now.finishState === 'customised'
      ? { worn_colour: customTin(car.number).name, worn_finish: 'enamel' }
      : { worn_colour: '', worn_finish: '' }),
    status: car.status,
    location: car.location,
    notes: car.notes,
    cost_minor: share.minor,
    cost_fixed: share.fixed ? 1 : 0,
    own_low_minor: own?.low ?? null,
    own_mid_minor: own?.mid ?? null,
    own_high_minor: own?.high ?? null,
    created_at: instant(bought, car.id),
    updated_at: instant(car.soldOn ?? car.restoredOn ?? bought, car.id),
  };
};

const checkNotes = [
  'Looked at under the lamp, out of the bag.',
  'In daylight at the window.',
  '',
  'Second look after cleaning.',
  'Loupe and lamp; nothing hidden that I can see.',
];

/** Every car was looked at when it came; restored ones again when they were done. */
const checkRows = (cars: DemoCar[]): { checks: Row<'condition_check'>[]; parts: Row<'part_grade'>[] } => {
  const random = randomFrom('condition checks of the demo');
  const checks: Row<'condition_check'>[] = [];
  const parts: Row<'part_grade'>[] = [];
  const add = (car: DemoCar, condition: DemoCondition, checked_on: string, notes: string) => {
    const id = checks.length + 1;
    checks.push({ id, car_id: car.id, checked_on, grade_half: condition.grade * 2, notes });
    for (const { part, grade, originality, note } of condition.parts)
      parts.push({
        id: parts.length + 1,
        check_id: id,
        part,
        grade_half: grade === null ? null : grade * 2,
        originality,
        note,
      });
  };
  for (const car of cars) {
    add(
      car,
      car.arrived,
      addDays(lotPlans[car.lot - 1]!.boughtOn, random.whole(1, 20)),
      random.pick(checkNotes),
    );
    if (car.restoredOn)
      add(car, car.now, addDays(car.restoredOn, 1), 'After the bench, three days cured. Graded as restored.');
  }
  return { checks, parts };
};
