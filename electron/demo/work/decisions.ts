import type { DemoCar } from '../cars/cars.ts';
import type { Row } from '../content.ts';
import { addDays } from '../dates.ts';

type Choice = Omit<Row<'decision'>, 'id' | 'car_id' | 'decided_on'>;

const chosen = (choice: Choice['choice'], recommended: string, reason: string, overruled: string[] = []) => ({
  choice,
  recommended,
  reason,
  overruled: JSON.stringify(overruled),
});

/** What the owner decided: mostly as recommended, once against a guard and with a reason. */
export const makeDecisions = (cars: DemoCar[]): Row<'decision'>[] => {
  const rows: Row<'decision'>[] = [];
  const taken = new Set<number>();
  const decide = (car: DemoCar | undefined, on: string, choice: Choice) => {
    if (!car || taken.has(car.id)) return;
    taken.add(car.id);
    rows.push({ id: rows.length + 1, car_id: car.id, decided_on: on, ...choice });
  };
  const kept = cars.filter(car => car.status === 'kept' && car.identified === 'variation' && !car.restoredOn);
  const original = kept.filter(car => car.now.finishState === 'original');
  for (const car of cars.filter(car => car.status === 'on the bench'))
    decide(
      car,
      '2026-10-11',
      chosen('restore', 'restore', 'No finish left worth keeping; parts are in the drawer.'),
    );
  for (const car of cars.filter(car => car.status === 'donor'))
    decide(
      car,
      '2026-04-02',
      chosen('donor', 'donor', 'Rear post cracked through. Wheels and base are good.'),
    );
  decide(
    original.find(car => car.now.grade >= 9),
    '2023-05-20',
    chosen('leave', 'leave', 'As made. It stays as made.'),
  );
  for (const car of original.filter(one => one.now.grade >= 6 && one.now.grade < 7).slice(0, 2))
    decide(
      car,
      addDays('2025-01-12', car.id),
      chosen('conserve', 'conserve', 'Clean and straighten the axle; the lacquer stays.'),
    );
  decide(
    original.find(
      car => car.lot !== 2 && car.now.grade >= 7 && ['common', 'uncommon'].includes(car.variation.rarity),
    ),
    '2026-09-20',
    chosen(
      'restore',
      'conserve',
      'The lacquer is lifting from the roof in sheets and comes off on the cloth; it will not be there in a year. A second one in better order is in the cabinet.',
      ['keep-grade'],
    ),
  );
  decide(
    kept.find(car => car.now.finishState === 'customised'),
    '2025-11-02',
    chosen('leave', 'restore', 'Somebody’s childhood. Not mine to undo.'),
  );
  return rows;
};
