import type { DeviationKind } from '../../valuation/words.ts';
import type { DemoCar } from './cars.ts';
import type { Row } from './content.ts';
import { type Random, randomFrom } from './random.ts';
import type { DemoFeatures } from './variations.ts';

/** What lies in the parts drawer, with what a piece cost. */
const stock: [name: string, inStock: number, unitMinor: number, notes: string][] = [
  ['Hub, six-hole disc 10.4 mm, reproduction', 10, 95, 'A shade too bright; tone down with weak tea'],
  ['Hub, six-hole disc 11.2 mm, reproduction', 6, 95, ''],
  ['Hub, dished disc 10.4 mm, reproduction', 4, 110, ''],
  ['Hub, slotted plate 11.2 mm, original', 3, 350, 'From donors, plating good on two'],
  ['Hub, wire 10.4 mm, reproduction', 0, 160, 'Waiting on the caster'],
  ['Axle wire 1.10 mm, per car', 24, 20, ''],
  ['Glazing, closed car, clear', 3, 420, 'Vacuum-formed, trim to fit'],
  ['Glazing, wedge, smoke', 1, 480, ''],
  ['Hamper, cast resin', 2, 600, ''],
  ['Roof beacon, cast resin', 1, 250, ''],
  ['Label sheet, Night Patrol', 2, 150, 'Printed film; the originals were paper'],
  ['Countersunk screw M1.6, pair', 18, 15, ''],
];

/** The spare parts in the drawer as rows; cost of one in US cents. */
export const partRows: Row<'part'>[] = stock.map(([name, in_stock, unit_minor, notes], i) => ({
  id: i + 1,
  name,
  in_stock,
  unit_minor,
  currency: 'USD',
  notes,
}));
const partId = (name: string): number => stock.findIndex(([one]) => one.startsWith(name)) + 1;

type Line = Omit<Row<'plan_line'>, 'id' | 'plan_id'>;
const line = (
  kind: Line['kind'],
  name: string,
  [low, likely, high]: readonly [number, number, number],
  { part, quantity = 1 }: { part?: string; quantity?: number } = {},
): Line => ({
  kind,
  name,
  low_minor: low,
  likely_minor: likely,
  high_minor: high,
  part_id: part === undefined ? null : partId(part),
  quantity,
});

/** What a plan of this car needs besides paint: parts for what is missing, by what the casting takes. */
const partLines = (car: DemoCar): { lines: Line[]; deviations: DeviationKind[] } => {
  const lines: Line[] = [];
  const deviations: DeviationKind[] = [];
  const lost = (part: string) =>
    car.now.parts.some(
      one => one.part === part && (one.originality === 'missing' || (one.grade ?? 10) <= 2.5),
    );
  const { wheels } = car.variation.features;
  if (lost('wheels')) {
    const hub =
      wheels === 'six-hole disc' || wheels === 'dished disc'
        ? `Hub, ${wheels} 10.4`
        : 'Hub, six-hole disc 11.2';
    lines.push(line('part', `Two hubs, ${wheels}`, [190, 200, 320], { part: hub, quantity: 2 }));
    deviations.push('reproduction wheels');
  }
  if (lost('glazing')) {
    const wedge = car.variation.features.glazing === 'smoke';
    const part = wedge ? 'Glazing, wedge' : 'Glazing, closed car';
    lines.push(line('part', 'Glazing', [420, 450, 700], { part }));
    deviations.push('reproduction glazing');
  }
  if (lost('accessory')) {
    lines.push(line('part', `Replacement ${car.variation.features.accessory}`, [250, 500, 900]));
    deviations.push('reproduction accessory');
  }
  return { lines, deviations };
};

const planNotes = [
  'Wait for dry weather: the last wet coat bloomed.',
  'Try warm water and soap before anything stronger, the lacquer may lift by itself.',
  'Match the shade inside the door line before stripping, and photograph it.',
  'Straighten the axle channel first; if it cracks, this becomes a donor.',
  'Keep the old wheels with the car in a bag.',
];

/** Candy lacquer goes on bright metal, enamel on primer; plate is bought in as work. */
const finishLines = ({ bodyFinish, colour }: DemoFeatures, custom: boolean): Line[] => {
  if (bodyFinish === 'enamel' && !custom)
    return [
      line('material', 'Primer, share of a can', [60, 90, 150]),
      line('material', `Enamel, ${colour.toLowerCase()}`, [180, 260, 420]),
    ];
  return [
    line('material', 'Metal polish and felts, share', [40, 80, 150]),
    bodyFinish === 'bright plate' && !custom
      ? line('other', 'Plating of the body by a plating shop', [900, 1400, 2200])
      : line(
          'material',
          `Candy lacquer and clear coat, ${custom ? 'own mix' : colour.toLowerCase()}`,
          [220, 320, 520],
        ),
  ];
};

const makePlan = (random: Random, car: DemoCar, id: number) => {
  const custom = car.now.finishState === 'customised';
  const { lines, deviations } = partLines(car);
  lines.unshift(
    line('material', 'Paint stripper, share', [90, 140, 260]),
    ...finishLines(car.variation.features, custom),
  );
  lines.push(
    line('part', 'Axle wire', [20, 40, 60], { part: 'Axle wire', quantity: 1 }),
    line('part', 'Countersunk screws', [15, 15, 30], { part: 'Countersunk screw', quantity: 1 }),
    line('tool', 'Pilot drill and tap, share', [60, 110, 240]),
  );
  if (car.variation.features.roof.startsWith('textured'))
    lines.push(line('material', 'Textured black for the roof', [110, 180, 260]));
  const plan: Row<'restoration_plan'> = {
    id,
    car_id: car.id,
    kind: custom ? 'customise' : 'restore',
    target_half: custom ? 16 : random.pick([17, 18, 18, 19]),
    deviations: JSON.stringify(
      custom
        ? ['another colour', 'visible post closure', ...deviations]
        : ['visible post closure', ...deviations],
    ),
    parts_after: '[]',
    minutes_low: 120,
    minutes_likely: 200 + 20 * lines.length,
    minutes_high: 480 + 30 * lines.length,
    spoil_permille: car.now.grade <= 2.5 ? 80 : 35,
    spoiled_share_permille: 450,
    notes: random.pick(planNotes),
  };
  return { plan, lines };
};

/**
 * Plans for rough cars that could be worth the work: those on the bench, and the best candidates of
 * the last two lots.
 */
export const makePlans = (
  cars: DemoCar[],
): { plans: Row<'restoration_plan'>[]; lines: Row<'plan_line'>[] } => {
  const random = randomFrom('plans of the demo');
  const candidates = cars.filter(
    car =>
      car.status === 'on the bench' ||
      (car.status === 'kept' &&
        car.identified === 'variation' &&
        car.now.grade <= 5 &&
        !car.restoredOn &&
        ['common', 'uncommon'].includes(car.variation.rarity)),
  );
  const chosen = [
    ...candidates.filter(car => car.status === 'on the bench'),
    ...random.shuffle(candidates.filter(car => car.status !== 'on the bench')).slice(0, 13),
  ].toSorted((a, b) => a.id - b.id);
  const plans: Row<'restoration_plan'>[] = [];
  const lines: Row<'plan_line'>[] = [];
  for (const car of chosen) {
    const made = makePlan(random, car, plans.length + 1);
    plans.push(made.plan);
    for (const one of made.lines) lines.push({ id: lines.length + 1, plan_id: made.plan.id, ...one });
  }
  return { plans, lines };
};
