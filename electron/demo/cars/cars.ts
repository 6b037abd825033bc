import type { IsoDate } from '../../../valuation/types.ts';
import type { FinishState, Grade } from '../../../valuation/words.ts';
import type { DemoReference } from '../castings/reference.ts';
import type { DemoVariation } from '../castings/variations.ts';
import { addDays } from '../dates.ts';
import type { DemoMarket } from '../market/market.ts';
import { type Random, randomFrom } from '../random.ts';
import { carNotes } from './car-notes.ts';
import { arrivedParts, type DemoCondition, halfPoint, restoredParts } from './condition.ts';
import { type LotPlan, lotPlans } from './lots.ts';

/** A car of the demo with its whole story; tables and photographs are written from it. */
export interface DemoCar {
  id: number;
  number: string;
  lot: number;
  /** What it truly is; the collection may not know. */
  variation: DemoVariation;
  identified: 'variation' | 'casting' | 'no';
  candidates: number[];
  asWritten: Record<string, string>;
  arrived: DemoCondition;
  now: DemoCondition;
  /** Day on which the owner's own restoration was finished. */
  restoredOn: IsoDate | null;
  soldOn: IsoDate | null;
  status: 'kept' | 'on the bench' | 'donor' | 'sold';
  location: string;
  notes: string;
}

/** How many cars of a lot the owner restored at the bench, by lot. */
const restoredAtBench = [1, 0, 3, 2, 0];

/**
 * The cars of the invented collection, lot by lot; the same at every call, as each lot draws
 * from its own seed.
 */
export const makeCars = (reference: DemoReference, market: DemoMarket): DemoCar[] => {
  const note = carNotes(randomFrom('car notes'));
  const cars: DemoCar[] = [];
  lotPlans.forEach((lot, index) => {
    const random = randomFrom(`cars of ${lot.name}`);
    const finishes = random.shuffle(finishList(lot));
    const chosen = chooseVariations(random, reference, market, lot);
    const made = chosen.map((variation, i) => {
      const id = cars.length + i + 1;
      return newCar(random, reference, { lot, index, id, variation, finishState: finishes[i]! });
    });
    leaveUnidentified(random, reference, made, lot.unidentified);
    sellSome(random, made, lot);
    restoreSome(random, made, lot, restoredAtBench[index]!);
    for (const car of made) {
      car.notes = car.restoredOn
        ? 'Done at my bench. Before and after photographs kept; it goes as restored, always.'
        : note(car.now.grade, car.now.finishState);
    }
    cars.push(...made);
  });
  putOnBench(cars);
  return cars;
};

const finishList = (lot: LotPlan): FinishState[] => {
  const others = Object.entries(lot.finishes).flatMap(([state, count]) =>
    Array.from({ length: count }, () => state as FinishState),
  );
  return [...others, ...Array.from({ length: lot.cars - others.length }, () => 'original' as const)];
};

/** What turns up in a lot is what turns up for sale, but for the lot of one year. */
const chooseVariations = (
  random: Random,
  reference: DemoReference,
  market: DemoMarket,
  lot: LotPlan,
): DemoVariation[] => {
  const pool = reference.variations.filter(one => lot.year === undefined || one.year === lot.year);
  const chosen: DemoVariation[] = [];
  while (chosen.length < lot.cars) {
    const variation = random.weighted(
      pool,
      pool.map(one => {
        const sought = one.rarity === 'scarce' || one.rarity === 'rare' ? lot.choice : 1;
        return (Math.min(1.2, market.supply.get(one.id)!) + 0.12) * sought;
      }),
    );
    if (chosen.filter(one => one.id === variation.id).length < (lot.year ? 2 : 1)) chosen.push(variation);
  }
  return chosen;
};

interface CarOfLot {
  lot: LotPlan;
  /** Place of the lot among the lots, from 0. */
  index: number;
  id: number;
  variation: DemoVariation;
  finishState: FinishState;
}

const newCar = (
  random: Random,
  reference: DemoReference,
  { lot, index, id, variation, finishState }: CarOfLot,
): DemoCar => {
  const { mean, sd, low, high } = lot.grade;
  const grade: Grade =
    finishState === 'restored'
      ? halfPoint(random.normal(8.5, 0.5), 7.5, 9.5)
      : halfPoint(random.normal(mean, sd), low, high);
  const parts = reference.casting_part
    .filter(part => part.casting_id === variation.castingId)
    .map(part => part.part)
    .filter(part => part !== 'accessory' || variation.features.accessory !== '')
    .filter(part => part !== 'labels' || variation.year > 1968);
  const arrived = { grade, finishState, parts: arrivedParts(random, parts, grade, finishState) };
  return {
    id,
    number: `Q-${String(id).padStart(3, '0')}`,
    lot: index + 1,
    variation,
    identified: 'variation',
    candidates: [],
    asWritten: {},
    arrived,
    now: arrived,
    restoredOn: null,
    soldOn: null,
    status: 'kept',
    location: random.pick(lot.locations),
    notes: '',
  };
};

/** Cars of a lot whose base is gone, so that not even the casting's name is left. */
const withoutBase = 2;

/** The condition without its base. */
const baseGone = (condition: DemoCondition): DemoCondition => ({
  ...condition,
  parts: condition.parts.map(part =>
    part.part === 'base' ? { ...part, grade: null, originality: 'missing', note: 'Gone' } : part,
  ),
});

/** Some cars keep the variations they may be, some only the words on their bag. */
const leaveUnidentified = (
  random: Random,
  reference: DemoReference,
  cars: DemoCar[],
  count: number,
): void => {
  const open = random.shuffle(cars).filter(car => car.variation.features.bodyFinish === 'candy lacquer');
  open.slice(0, count).forEach((car, i) => {
    if (i < withoutBase) {
      car.identified = 'no';
      car.asWritten = {
        casting: `${reference.castings[car.variation.castingId - 1]!.body}, no base`,
        colour: random.pick(['hard to say', 'was it this when new?']),
      };
      car.arrived = baseGone(car.arrived);
      car.now = car.arrived;
      return;
    }
    car.identified = 'casting';
    const rivals = reference.variations.filter(one => one.castingId === car.variation.castingId);
    const alike = rivals.filter(one => one.id !== car.variation.id);
    car.candidates = [
      car.variation.id,
      ...random
        .shuffle(alike)
        .slice(0, 2)
        .map(one => one.id),
    ].toSorted((a, b) => a - b);
    car.asWritten = {
      casting: car.variation.casting,
      colour: random.pick(['faded past telling', 'some candy lacquer', 'stripped to zinc in places']),
    };
  });
};

const sellSome = (random: Random, cars: DemoCar[], lot: LotPlan): void => {
  random
    .shuffle(cars)
    .slice(0, lot.sold)
    .forEach((car, i) => {
      car.soldOn = addDays(lot.boughtOn, 150 + i * 88 + random.whole(0, 40));
      car.status = 'sold';
      car.location = '';
    });
};

/**
 * The roughest original cars of common variations go to the bench; their finish is what was lost,
 * and is not hidden.
 */
const restoreSome = (random: Random, cars: DemoCar[], lot: LotPlan, count: number): void => {
  cars
    .filter(
      car =>
        car.identified === 'variation' && car.arrived.finishState === 'original' && car.arrived.grade <= 5.5,
    )
    .toSorted((a, b) => a.arrived.grade - b.arrived.grade || a.id - b.id)
    .slice(0, count)
    .forEach((car, i) => {
      const grade = halfPoint(random.between(8.5, 9.4), 8.5, 9.5);
      const finished = addDays(lot.boughtOn, 90 + i * 70);
      car.restoredOn = car.soldOn && car.soldOn <= finished ? addDays(car.soldOn, -25) : finished;
      car.now = { grade, finishState: 'restored', parts: restoredParts(random, car.arrived.parts, grade) };
    });
};

const putOnBench = (cars: DemoCar[]): void => {
  const rough = cars
    .filter(car => car.status === 'kept' && car.identified === 'variation' && car.lot >= 4 && !car.restoredOn)
    .filter(car => car.now.finishState === 'original' || car.now.finishState === 'stripped')
    .toSorted((a, b) => a.now.grade - b.now.grade || a.id - b.id);
  for (const car of rough.slice(2, 5)) {
    car.status = 'on the bench';
    car.location = 'Bench';
  }
  for (const car of rough.slice(0, 2)) {
    car.status = 'donor';
    car.location = 'Parts box';
    car.notes = 'Beyond saving, and good for its wheels and base. Parts box.';
  }
};
