import { firstPhotos } from '../../../db/photos/photo-lists.ts';
import { type CarRecord, carCandidates, listCars } from '../../../db/records/cars.ts';
import { readDecisions } from '../../../db/records/decisions.ts';
import { listLots } from '../../../db/records/lots.ts';
import { worthOverTime } from '../../../db/records/valuations.ts';
import { plain } from '../../../db/reference/plain.ts';
import { recommendations, sumOfCars } from '../../../valuation/index.ts';
import { basisOfWorths } from '../../../valuation/words.ts';
import { carRows } from '../cars/car-rows.ts';
import { booksOf } from '../figures/books.ts';
import { type CarFigures, carFigures } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { HomeView } from '../views.ts';
import { firstSteps } from '../young/first-steps.ts';
import { nextSteps } from './next-steps.ts';
import { summaryOf } from './summary.ts';

interface Valued {
  car: CarRecord;
  figures: CarFigures | undefined;
}

const midOf = ({ figures }: Valued) => figures?.worths.asFound?.mid ?? 0;

/** What a car is expected to bring: the mean, which adds up over cars, where mids (medians) do not. */
const expectedOf = ({ figures }: Valued): number => {
  const worth = figures?.worths.asFound;
  return worth ? Math.exp(worth.logMean + worth.logSd ** 2 / 2) : 0;
};

/** Cars and what they are expected to bring together, group by group, the greatest worth first. */
const grouped = <Key>(cars: Valued[], keyOf: (car: CarRecord) => Key) =>
  [...Map.groupBy(cars, ({ car }) => keyOf(car))]
    .map(([name, members]) => ({
      name,
      cars: members.length,
      worth: Math.round(members.reduce((sum, member) => sum + expectedOf(member), 0)),
    }))
    .sort((a, b) => b.worth - a.worth || b.cars - a.cars);

/** What the cars have cost, brought to the reporting currency at the day of their lot. */
const costOf = async (session: Session, cars: CarRecord[]): Promise<number> => {
  const books = await booksOf(session);
  const today = await session.today();
  const lots = new Map((await listLots(openOf(session).read.db)).map(lot => [lot.id, lot]));
  return cars.reduce((sum, car) => {
    const lot = car.lotId === null ? undefined : lots.get(car.lotId);
    if (car.cost === null || !lot) return sum;
    return sum + (books.convert(car.cost, lot.currency, lot.boughtOn ?? today) ?? 0);
  }, 0);
};

/** The first page: what there is, what it is worth, and what to do next. */
export const homeView = async (session: Session): Promise<HomeView> => {
  const { db } = openOf(session).read;
  const all = await listCars(db);
  const figures = await carFigures(session, all);
  const cars: Valued[] = all
    .filter(car => car.status !== 'sold')
    .map(car => ({ car, figures: figures.get(car.id) }));
  const index = await referenceIndex(session);
  const summary = await summaryOf(session);
  const worths = cars.flatMap(({ figures: found }) => found?.worths.asFound ?? []);
  const fitted = await marketToday(session);
  const candidates = await carCandidates(db);
  const { correlation: _, ...total } = sumOfCars(
    fitted,
    cars.flatMap(({ car, figures: found }) =>
      found?.worths.asFound
        ? [{ car: { ...car, candidates: candidates.get(car.id) ?? [] }, worth: found.worths.asFound }]
        : [],
    ),
  );
  const variationOf = (car: CarRecord) =>
    car.variationId === null ? undefined : index.variations.get(car.variationId);
  const seriesOf = (car: CarRecord) =>
    (car.castingId === null ? undefined : index.castings.get(car.castingId)?.series) ?? null;
  const spellings = new Map<string, string>();
  // "purple" and "Purple" are one colour, spelled as it is met first.
  const colourOf = (text: string | undefined) => {
    if (!text) return null;
    const known = spellings.get(plain(text));
    if (known === undefined) spellings.set(plain(text), text);
    return known ?? text;
  };
  const best = cars
    .filter(valued => midOf(valued) > 0)
    .sort((a, b) => midOf(b) - midOf(a))
    .slice(0, 6)
    .map(({ car }) => car);
  const bestRows = new Map((await carRows(session, best)).map(row => [row.id, row]));
  const decided = await readDecisions(db);
  const { saleRecords } = summary.counts;
  const steps = await firstSteps(session, { cars, decided, saleRecords });
  return {
    summary,
    firstSteps: steps,
    totals: {
      cars: cars.length,
      valued: worths.length,
      asFound: total,
      cost: await costOf(
        session,
        cars.map(({ car }) => car),
      ),
      currency: summary.reportingCurrency,
    },
    overTime: await worthOverTime(db, basisOfWorths, summary.reportingCurrency),
    bySeries: grouped(cars, seriesOf),
    byGrade: grouped(cars, car => (car.grade === null ? null : Math.floor(car.grade)))
      .map(({ name, ...rest }) => ({ grade: name, ...rest }))
      .sort((a, b) => (b.grade ?? 0) - (a.grade ?? 0)),
    byColour: grouped(cars, car => colourOf(variationOf(car)?.features.colour || car.asWritten.colour)).map(
      group => ({ ...group, swatch: group.name === null ? null : index.swatchOf(group.name) }),
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
      photos: await firstPhotos(db),
      decided,
      saleRecords,
      castings: summary.counts.castings,
    }),
    best: best.flatMap(car => bestRows.get(car.id) ?? []),
  };
};
