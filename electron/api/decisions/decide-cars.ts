import { carsOnBench } from '../../../db/records/bench/jobs.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { readChoices } from '../../../db/records/decisions/decisions.ts';
import { currentStandings } from '../../../db/records/decisions/seasons.ts';
import type { Option } from '../../../valuation/index.ts';
import type { CarStanding } from '../../../valuation/words.ts';
import { carRows } from '../cars/car-rows.ts';
import { type ListedCars, listedCars } from '../cars/listed-cars.ts';
import { figuresById } from '../figures/figures.ts';
import { ownedOf } from '../figures/owned.ts';
import { memo } from '../session/memo.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { DecideCar, DecisionSummary } from '../views.ts';

/** The cars that may be worked on, and what they are filtered, sorted and counted by. */
export interface DecideCars extends ListedCars {
  /** What its owner decided; null where nothing was. */
  choiceOf(id: number): Option | null;
  /** How it stands in the current season. */
  standingOf(id: number): CarStanding;
  /** Whether it has a job on the bench that is not over. */
  isOnBench(id: number): boolean;
}

const choices = memo(({ db }) => readChoices(db));
const standings = memo(({ db }) => currentStandings(db));
const onBench = memo(({ db }) => carsOnBench(db));

/** Sold cars are no longer to be decided, those that were only seen not yet. */
export const decideCars = async (
  session: Session,
  figures: true | 'may be of before' = true,
): Promise<DecideCars> => {
  const list = await listedCars(session, { figures, texts: false });
  const choice = await choices(session);
  const standing = await standings(session);
  const busy = await onBench(session);
  return {
    ...list,
    cars: await ownedOf(session, list.cars),
    choiceOf: id => choice.get(id) ?? null,
    standingOf: id => standing.get(id) ?? null,
    isOnBench: id => busy.has(id),
  };
};

/** Of these ids the cars that may be worked on, with their decisions in short, in their order. */
export const weighedByIds = async (session: Session, ids: number[]): Promise<DecisionSummary[]> => {
  const cars = await ownedOf(session, await listCars(openOf(session).read.db, { ids }));
  const rows = await carRows(session, cars);
  const figures = await figuresById(session, ids);
  const weighedOf = figures.column(({ weighed }) => weighed);
  const busy = await onBench(session);
  const all = rows.flatMap((row): DecisionSummary[] => {
    const weighed = weighedOf(row.id);
    if (!weighed) return [];
    const { id, inventoryNumber, casting, releaseName, variation, swatch, wornColour } = row;
    const { grade, finishState, photo, worths, recommendation, decided, features, asWritten } = row;
    const car: DecideCar = {
      ...{ id, inventoryNumber, casting, releaseName, variation, swatch, wornColour },
      ...{ grade, finishState, photo, worths, recommendation, decided },
      features: { colour: features.colour, basePaint: features.basePaint },
      asWritten: asWritten.casting ? { casting: asWritten.casting } : {},
    };
    return [{ car, ...weighed, onBench: busy.has(id) }];
  });
  const byId = new Map(all.map(one => [one.car.id, one]));
  return ids.flatMap(id => byId.get(id) ?? []);
};
