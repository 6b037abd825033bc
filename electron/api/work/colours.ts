import { readSubjects } from '../../../db/engine/subjects.ts';
import { inventoryNumbers, listCars } from '../../../db/records/cars/cars.ts';
import {
  type ColourStanding,
  chooseColours,
  type FittedMarket,
  type PaintedCar,
  pairsOf,
  planFidelity,
  type RestorationPlan,
  type Subject,
  valueCar,
} from '../../../valuation/index.ts';
import { deviationOfColour } from '../../../valuation/words.ts';
import { planOf } from '../figures/decision-summary.ts';
import { marketToday } from '../figures/market.ts';
import { ownedOf } from '../figures/owned.ts';
import * as inputs from '../inputs.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import type { ColourOnShelf, SeasonColours } from '../views.ts';

/** Fidelity and worth of a car, restored by its plan in its own colour or in another. */
const inColour = (
  fitted: FittedMarket,
  subject: Subject,
  plan: RestorationPlan,
  standing: ColourStanding,
) => {
  const others = plan.deviations.filter(kind => kind !== deviationOfColour);
  const painted = { ...plan, deviations: standing === 'own' ? others : [...others, deviationOfColour] };
  const { restored } = valueCar(fitted, { ...subject, plan: painted });
  const mean = restored === null ? 0 : Math.exp(restored.logMean + restored.logSd ** 2 / 2);
  return {
    worth: Math.round(mean * (1 - fitted.assumptions.decision.sellingFees)),
    fidelity: planFidelity(painted, fitted.assumptions.deviationLoss).factor,
  };
};

/**
 * Colours for cars that will be painted anyway, so that the shelf has variety: `pairCost` is what two cars of
 * one colour count against it. A car of which factory finish is left keeps its own colour, whatever variety
 * would gain. Another colour than a car was made in is a departure, also where its casting was made in it; of
 * equals those come first.
 */
export const seasonColours = needsCollection
  .input(inputs.seasonColours)
  .handler(async ({ context, input }): Promise<SeasonColours> => {
    const { session, db } = context;
    const fitted = await marketToday(session);
    const index = await referenceIndex(session);
    const painted = new Set(input.carIds);
    const all = await ownedOf(session, await listCars(db));
    const madeIn = (variationId: number | null) =>
      variationId === null ? '' : (index.variations.get(variationId)?.features.colour ?? '');
    // A colour is one whatever its capitals; it is shown as it was seen first.
    const names = new Map<string, string>();
    const known = (name: string): string => {
      const key = name.trim().toLowerCase();
      if (!names.has(key)) names.set(key, name.trim());
      return names.get(key)!;
    };
    const shelf = new Map<string, number>();
    const wears = (car: (typeof all)[number]) => known(car.wornColour || madeIn(car.variationId));
    const before = new Map<string, number>();
    const count = (counts: Map<string, number>, colour: string) => {
      if (colour !== '') counts.set(colour, (counts.get(colour) ?? 0) + 1);
    };
    const cars = all.filter(({ id }) => painted.has(id));
    const subjects = new Map((await readSubjects(db, cars)).map(subject => [subject.id, subject]));
    const numbers = await inventoryNumbers(db, input.carIds);
    const others = input.others
      ? [...new Set([...index.variations.values()].map(({ features }) => known(features.colour)))].filter(
          Boolean,
        )
      : [];
    const candidates: PaintedCar[] = [];
    const costs = new Map<string, { worth: number; fidelity: number }>();
    const own = new Map<number, string>();
    const kept: number[] = [];
    for (const car of all) {
      const isPainted = painted.has(car.id);
      const hasFactoryFinish = car.finishState === 'original' || car.finishState === 'touched up';
      if (!isPainted || hasFactoryFinish) {
        count(shelf, wears(car));
        if (isPainted) kept.push(car.id);
        continue;
      }
      const subject = subjects.get(car.id)!;
      const plan = planOf(fitted, subject);
      const mine = known(madeIn(car.variationId) || car.wornColour);
      own.set(car.id, mine);
      const factory = car.castingId === null ? [] : (index.ofCasting.get(car.castingId) ?? []);
      const standings = new Map<string, ColourStanding>();
      if (mine !== '') standings.set(mine, 'own');
      for (const { features } of factory) {
        const colour = known(features.colour);
        // Of a car whose variation is not known, any colour of its casting may be its own.
        if (colour !== '' && !standings.has(colour))
          standings.set(colour, car.variationId === null ? 'own' : 'factory');
      }
      for (const colour of others) if (!standings.has(colour)) standings.set(colour, 'other');
      const figures = {
        own: inColour(fitted, subject, plan, 'own'),
        other: inColour(fitted, subject, plan, 'other'),
      };
      const colours = [...standings].map(([colour, standing]) => {
        const found = standing === 'own' ? figures.own : figures.other;
        costs.set(`${car.id} ${colour}`, found);
        return { colour, standing, worth: found.worth };
      });
      if (colours.length > 0) candidates.push({ id: car.id, colours });
    }
    for (const [colour, many] of shelf) before.set(colour, many);
    for (const { id } of candidates) count(before, own.get(id) ?? '');
    const { cars: chosen, pairs } = await chooseColours(candidates, shelf, input.pairCost);
    const after = new Map(shelf);
    for (const { colour } of chosen) count(after, colour);
    const strip = (counts: Map<string, number>): ColourOnShelf[] =>
      [...counts]
        .map(([colour, many]) => ({ colour, swatch: index.swatchOf(colour), count: many }))
        .sort((a, b) => b.count - a.count || (a.colour < b.colour ? -1 : 1));
    return {
      cars: chosen.map(({ id, colour }) => {
        const mine = own.get(id) ?? '';
        const { colours } = candidates.find(car => car.id === id)!;
        const from = costs.get(`${id} ${mine}`) ?? costs.get(`${id} ${colour}`)!;
        const to = costs.get(`${id} ${colour}`)!;
        return {
          carId: id,
          inventoryNumber: numbers.get(id) ?? '',
          own: mine,
          colour,
          swatch: index.swatchOf(colour),
          standing: colours.find(one => one.colour === colour)!.standing,
          fidelity: { own: from.fidelity, painted: to.fidelity },
          cost: from.worth - to.worth,
        };
      }),
      kept: kept.map(id => numbers.get(id) ?? ''),
      before: strip(before),
      after: strip(after),
      pairs: { before: pairsOf(before.values()), after: pairs },
    };
  });
