import type { DemoCar } from './cars/cars.ts';
import type { DemoCondition } from './cars/condition.ts';
import { lotPlans } from './cars/lots.ts';
import { colourNamed } from './castings/colours.ts';
import type { BodyType } from './castings/index.ts';
import type { DemoReference } from './castings/reference.ts';
import type { DemoPhoto } from './content.ts';
import { addDays } from './dates.ts';
import type { CarSpec, CarView } from './drawing/spec.ts';
import { randomFrom } from './random.ts';

/** What a drawing needs to know of a car in a condition. */
export const specOf = (reference: DemoReference, car: DemoCar, condition: DemoCondition): CarSpec => {
  const casting = reference.castings[car.variation.castingId - 1]!;
  const { features } = car.variation;
  const having = (originality: string) =>
    condition.parts.filter(part => part.originality === originality).map(part => part.part);
  return {
    casting: casting.plan.name,
    body: casting.body,
    lengthMm: casting.plan.lengthMm,
    colour: colourNamed(features.colour).swatch,
    bodyFinish: features.bodyFinish,
    basePaint: features.basePaint,
    rearEnd: features.rearEnd,
    roof: features.roof,
    interior: features.interior,
    glazing: features.glazing,
    wheels: features.wheels,
    accessory: features.accessory,
    country: features.country,
    year: car.variation.year,
    castYear: casting.plan.year,
    grade: condition.grade,
    finishState: condition.finishState,
    missing: having('missing'),
    reproduction: having('reproduction'),
    paper: car.lot - 1,
    seed: car.number,
  };
};

const viewNames: Record<CarView, string> = { side: 'near side', base: 'base', rear: 'rear' };

/** Bodies whose tail is worth a photograph of its own. */
const rearDrawn: BodyType[] = [
  'saloon',
  'coupé',
  'fastback',
  'estate',
  'van',
  'pickup',
  'roadster',
  'wedge prototype',
];

/** Cars of the last lot that nobody has photographed yet. */
const unphotographed = 3;

/** The photographs of the collection, in order: the one that stands for the car first. */
export const makePhotos = (reference: DemoReference, cars: DemoCar[]): DemoPhoto[] => {
  const random = randomFrom('photographs of the demo');
  const photos: DemoPhoto[] = [];
  const last = cars.filter(car => car.lot === lotPlans.length);
  const without = new Set(last.slice(-unphotographed).map(car => car.id));
  for (const car of cars) {
    if (without.has(car.id)) continue;
    const bought = lotPlans[car.lot - 1]!.boughtOn;
    let position = 0;
    const add = (kind: CarView, condition: DemoCondition, takenOn: string, state: string) =>
      photos.push({
        carId: car.id,
        lotId: null,
        view: viewNames[kind],
        caption: '',
        state,
        takenOn,
        position: position++,
        drawn: { kind, car: specOf(reference, car, condition) },
      });
    const day = addDays(bought, random.whole(1, 9));
    if (car.restoredOn) {
      add('side', car.now, addDays(car.restoredOn, 1), 'after');
      add('side', car.arrived, day, 'before');
    } else add('side', car.now, day, '');
    const baseGone = car.now.parts.some(part => part.part === 'base' && part.originality === 'missing');
    if (!baseGone && random.chance(car.lot === 2 ? 0.75 : 0.3)) add('base', car.now, day, '');
    if (
      rearDrawn.includes(reference.castings[car.variation.castingId - 1]!.body) &&
      random.chance(car.lot === 2 ? 0.6 : 0.26)
    )
      add('rear', car.now, day, '');
  }
  lotPlans.forEach((lot, i) => {
    photos.push({
      carId: null,
      lotId: i + 1,
      view: 'group',
      caption: 'As they came',
      state: 'before',
      takenOn: lot.boughtOn,
      position: 0,
      drawn: {
        kind: 'lot',
        cars: cars.filter(car => car.lot === i + 1).map(car => specOf(reference, car, car.arrived)),
        seed: lot.name,
      },
    });
  });
  return photos;
};
