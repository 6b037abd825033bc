import { checkFinite } from '../statistics/check-input.ts';
import { loadSolver } from './limits-model.ts';

/** What a colour would be for a car: its own, another of its casting's, or none that the factory gave it. */
export type ColourStanding = 'own' | 'factory' | 'other';

/** A car that will be painted anyway, and what it would be worth in each colour that it may have. */
export interface PaintedCar {
  id: number;
  /** At least one. Minor units of the reporting currency, after selling costs. */
  colours: readonly { colour: string; standing: ColourStanding; worth: number }[];
}

export interface ChosenColours {
  /** In the order in which the cars were given. */
  cars: { id: number; colour: string }[];
  /** Sum of the cars' worths in those colours, and the pairs of cars in one colour on the whole shelf. */
  worth: number;
  pairs: number;
}

/** Of equals the car's own colour is taken, then one of its casting: by so much of a minor unit. */
const preference: Record<ColourStanding, number> = { own: 0, factory: 0.01, other: 0.02 };

/** Pairs of cars in one colour, of so many cars by colour. */
export const pairsOf = (counts: Iterable<number>): number => {
  let pairs = 0;
  for (const count of counts) pairs += (count * (count - 1)) / 2;
  return pairs;
};

const checkCars = (cars: readonly PaintedCar[], pairCost: number): void => {
  checkFinite(pairCost, 'cost of a pair');
  if (pairCost < 0) throw new RangeError(`cost of a pair must not be below zero, and is ${pairCost}`);
  for (const { id, colours } of cars) {
    if (colours.length === 0) throw new RangeError(`car ${id} has no colour to choose`);
    if (new Set(colours.map(({ colour }) => colour)).size < colours.length)
      throw new RangeError(`car ${id} has a colour twice`);
    for (const { worth } of colours) checkFinite(worth, `worth of car ${id}`);
  }
};

/**
 * A colour for each car, so that the sum of their worths less `pairCost` for every two cars of one colour on
 * the shelf is greatest. `shelf`: how many cars wear each colour already; those stay as they are. One
 * assignment, solved by HiGHS: a car takes one colour, and the n-th car of a colour costs `pairCost` times
 * those that wear it already, which rises, so that the cheapest places are taken first. The same input gives
 * the same answer. Rejects with RangeError on bad figures.
 */
export const chooseColours = async (
  cars: readonly PaintedCar[],
  shelf: ReadonlyMap<string, number>,
  pairCost: number,
): Promise<ChosenColours> => {
  checkCars(cars, pairCost);
  const counts = new Map(shelf);
  if (cars.length === 0) return { cars: [], worth: 0, pairs: pairsOf(counts.values()) };
  const names = [...new Set(cars.flatMap(({ colours }) => colours.map(({ colour }) => colour)))];
  const rowOf = new Map(names.map((name, i) => [name, cars.length + i]));
  const costs: number[] = [];
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  const column = (cost: number, entries: readonly [row: number, value: number][]) => {
    costs.push(cost);
    for (const [row, value] of entries) {
      indices.push(row);
      values.push(value);
    }
    starts.push(indices.length);
  };
  for (const [i, { colours }] of cars.entries())
    for (const { colour, standing, worth } of colours)
      column(worth - preference[standing], [
        [i, 1],
        [rowOf.get(colour)!, 1],
      ]);
  const choices = costs.length;
  for (const name of names)
    for (let place = 0; place < cars.length; place += 1)
      column(-pairCost * ((shelf.get(name) ?? 0) + place), [[rowOf.get(name)!, -1]]);
  const rows = cars.length + names.length;
  const scale = Math.max(1, ...costs.map(Math.abs));
  const highs = await loadSolver();
  const { objectiveSense, variableType, modelStatus } = highs.constants;
  const equal = [...cars.map(() => 1), ...names.map(() => 0)];
  const model = highs.createModel({
    numCols: costs.length,
    numRows: rows,
    sense: objectiveSense.maximize,
    colCost: costs.map(cost => (cost / scale) * 1024),
    colLower: costs.map(() => 0),
    colUpper: costs.map(() => 1),
    rowLower: equal,
    rowUpper: equal,
    matrix: { format: 'csc', numRows: rows, numCols: costs.length, starts, indices, values },
    integrality: costs.map(() => variableType.integer),
  });
  try {
    model.options.set({
      output_flag: false,
      mip_abs_gap: 1e-9,
      mip_rel_gap: 0,
      mip_feasibility_tolerance: 1e-9,
    });
    model.run();
    const status = model.getModelStatus();
    if (status !== modelStatus.optimal) throw new Error(`The solver ended with status ${status}`);
    const shares = model.getSolution().colValue;
    let at = 0;
    let worth = 0;
    const chosen = cars.map(({ id, colours }) => {
      const own = colours.findIndex((_, k) => shares[at + k]! > 0.5);
      at += colours.length;
      const taken = colours[own]!;
      worth += taken.worth;
      counts.set(taken.colour, (counts.get(taken.colour) ?? 0) + 1);
      return { id, colour: taken.colour };
    });
    if (at !== choices) throw new Error('The solver answered for other cars');
    return { cars: chosen, worth, pairs: pairsOf(counts.values()) };
  } finally {
    model.dispose();
  }
};
