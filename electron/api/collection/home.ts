import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { listLots } from '../../../db/records/lots/lots.ts';
import { worthOverTime } from '../../../db/records/worth/valuations.ts';
import { plain } from '../../../db/reference/plain.ts';
import { meanWorth, recommendations, sumOfCars } from '../../../valuation/index.ts';
import { basisOfWorths, type FinishState, finishStates, type Grade } from '../../../valuation/words.ts';
import { carRows } from '../cars/car-rows.ts';
import { booksOf } from '../figures/books.ts';
import { allBriefCars } from '../figures/brief-cars.ts';
import { type CarFigures, figuresById } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { slot } from '../session/cache.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { HomeView } from '../views.ts';
import { firstSteps } from '../young/first-steps.ts';
import { nextSteps } from './next-steps.ts';
import { summaryOf } from './summary.ts';

interface Valued {
  car: BriefCar;
  figures: CarFigures | undefined;
  /** What it is expected to bring: the mean, which adds up over cars, where mids (medians) do not. */
  expected: number;
}

const midOf = ({ figures }: Valued) => figures?.worths.asFound?.mid ?? 0;

const valued = (car: BriefCar, figures: CarFigures | undefined): Valued => {
  const worth = figures?.worths.asFound;
  return { car, figures, expected: worth ? meanWorth(worth) : 0 };
};

/**
 * Cars and what those of them that have a value are expected to bring together, group by group, the greatest
 * worth first; null where none has one.
 */
const grouped = <Key>(cars: Valued[], keyOf: (car: BriefCar) => Key) => {
  const groups = new Map<Key, { cars: number; sum: number | null }>();
  for (const { car, figures, expected } of cars) {
    const key = keyOf(car);
    const group = groups.get(key) ?? { cars: 0, sum: null };
    group.cars += 1;
    if (figures?.worths.asFound) group.sum = (group.sum ?? 0) + expected;
    groups.set(key, group);
  }
  return [...groups]
    .map(([name, group]) => ({
      name,
      cars: group.cars,
      worth: group.sum === null ? null : Math.round(group.sum),
    }))
    .sort((a, b) => (b.worth ?? 0) - (a.worth ?? 0) || b.cars - a.cars);
};

/**
 * Cars with their factory finish by grade, the others by what has become of it: their grades are not of one
 * scale.
 */
const gradeGroup = ({ grade, finishState }: BriefCar): Grade | FinishState | null =>
  finishState !== 'original' ? finishState : grade === null ? null : Math.floor(grade);

/** What the cars have cost, brought to the reporting currency at the day of their lot. */
const costOf = async (session: Session, cars: Valued[]): Promise<number> => {
  const books = await booksOf(session);
  const today = await session.today();
  const lots = new Map((await listLots(openOf(session).read.db)).map(lot => [lot.id, lot]));
  return cars.reduce((sum, { car }) => {
    const lot = car.lotId === null ? undefined : lots.get(car.lotId);
    if (car.cost === null || !lot) return sum;
    return sum + (books.convert(car.cost, lot.currency, lot.boughtOn ?? today) ?? 0);
  }, 0);
};

/** How many values rest mainly on what the owner paid, and how many on what they believe. */
const onOwn = (cars: Valued[]): HomeView['totals']['onOwn'] => {
  const count = { paid: 0, believed: 0 };
  for (const { figures } of cars) {
    const own = figures?.worths.restsOn;
    if (own) count[own] += 1;
  }
  return count;
};

/** The cars of the greatest mids, the greatest first; of equals the one entered first. */
const bestOf = (cars: Valued[], most: number): number[] => {
  const best: Valued[] = [];
  for (const one of cars) {
    const mid = midOf(one);
    if (mid <= 0 || (best.length === most && mid <= midOf(best[most - 1]!))) continue;
    const place = best.findIndex(other => midOf(other) < mid);
    best.splice(place < 0 ? best.length : place, 0, one);
    best.length = Math.min(most, best.length);
  }
  return best.map(({ car }) => car.id);
};

const workOut = async (session: Session): Promise<HomeView> => {
  const { db } = openOf(session).read;
  const all = [...(await allBriefCars(session)).values()];
  const unsold = all.filter(({ isSold }) => !isSold);
  const figuresOf = await figuresById(
    session,
    unsold.map(({ id }) => id),
  );
  const cars = unsold.map(car => valued(car, figuresOf(car.id)));
  const index = await referenceIndex(session);
  const summary = await summaryOf(session);
  const inSum = cars.flatMap(({ car, figures }) => {
    const worth = figures?.worths.asFound;
    return worth ? [{ car, worth }] : [];
  });
  const { correlation: _, ...total } = sumOfCars(await marketToday(session), inSum);
  const variationOf = (car: BriefCar) =>
    car.variationId === null ? undefined : index.variations.get(car.variationId);
  const seriesOf = (car: BriefCar) =>
    (car.castingId === null ? undefined : index.castings.get(car.castingId)?.series) ?? null;
  const spellings = new Map<string, string>();
  // "purple" and "Purple" are one colour, spelled as it is met first.
  const colourOf = (text: string): string | null => {
    if (!text) return null;
    const known = spellings.get(text);
    if (known !== undefined) return known;
    const spelling = spellings.get(plain(text)) ?? text;
    spellings.set(plain(text), spelling);
    spellings.set(text, spelling);
    return spelling;
  };
  const best = bestOf(cars, 6);
  const bestRows = new Map(
    (await carRows(session, await listCars(db, { ids: best }))).map(row => [row.id, row]),
  );
  const decided = all.filter(({ isDecided }) => isDecided).length;
  const { saleRecords } = summary.counts;
  const steps = await firstSteps(session, { cars, decided, saleRecords });
  return {
    summary,
    firstSteps: steps,
    totals: {
      cars: cars.length,
      valued: inSum.length,
      onOwn: onOwn(cars),
      asFound: total,
      cost: await costOf(session, cars),
      currency: summary.reportingCurrency,
    },
    overTime: await worthOverTime(db, basisOfWorths, summary.reportingCurrency),
    bySeries: grouped(cars, seriesOf),
    byGrade: grouped(cars, gradeGroup)
      .map(({ name, ...rest }) =>
        typeof name === 'string'
          ? { grade: null, finishState: name, ...rest }
          : { grade: name, finishState: null, ...rest },
      )
      .sort(
        (a, b) =>
          finishStates.indexOf(a.finishState ?? 'original') -
            finishStates.indexOf(b.finishState ?? 'original') || (b.grade ?? 0) - (a.grade ?? 0),
      ),
    byColour: grouped(cars, car => colourOf(car.colour || variationOf(car)?.features.colour || '')).map(
      group => ({
        ...group,
        swatch: group.name === null ? null : index.swatchOf(group.name),
      }),
    ),
    byRecommendation: recommendations.flatMap(recommendation => {
      const members = cars.filter(({ figures: found }) => found?.recommendation === recommendation);
      const gain = members.reduce((sum, { figures: found }) => sum + (found?.expectedGain ?? 0), 0);
      // The gain of leaving is nothing; the figure beside it is that of the best thing not done.
      return members.length === 0
        ? []
        : [{ recommendation, cars: members.length, gain: recommendation === 'leave' ? 0 : gain }];
    }),
    next: nextSteps({
      isYoung: steps !== null,
      cars,
      saleRecords,
      castings: summary.counts.castings,
    }),
    best: best.flatMap(id => bestRows.get(id) ?? []),
  };
};

const held = slot<{ at: number; today: string; view: HomeView } | null>(() => null);

/**
 * The first page: what there is, what it is worth, and what to do next; the same as before as long as nothing was
 * changed. Its summary is read again, as backups are no actions.
 */
export const homeView = async (session: Session): Promise<HomeView> => {
  const { cache } = session;
  const at = cache.now();
  const today = await session.today();
  const before = cache.of(held);
  if (before?.at === at && before.today === today)
    return { ...before.view, summary: await summaryOf(session) };
  const view = await workOut(session);
  if (cache.now() === at) cache.put(held, { at, today, view });
  return view;
};
