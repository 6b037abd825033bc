import { setImmediate as othersTurn } from 'node:timers/promises';
import { listCars } from '../../../db/records/cars/cars.ts';
import { listLots } from '../../../db/records/lots/lots.ts';
import { worthOverTime } from '../../../db/records/worth/valuations.ts';
import { plain } from '../../../db/reference/plain.ts';
import { recommendations, sumOfParts } from '../../../valuation/index.ts';
import { basisOfWorths, finishStates } from '../../../valuation/words.ts';
import { carRows } from '../cars/car-rows.ts';
import { booksOf } from '../figures/books.ts';
import { allBriefCars, briefCarBlocks } from '../figures/brief-cars.ts';
import { type CarBlock, heldPieces } from '../figures/car-blocks.ts';
import { basisOfFigures, figuresById, figuresThere } from '../figures/figures.ts';
import { isOwned, seenLotsOf } from '../figures/owned.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { keptAnswer } from '../session/kept-answer.ts';
import { memo } from '../session/memo.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { underWay } from '../session/under-way.ts';
import type { HomeView } from '../views.ts';
import { firstSteps } from '../young/first-steps.ts';
import { allCounts, bestOf, type Gathered, gathered, type HomePiece, homePiece } from './home-pieces.ts';
import { nextSteps } from './next-steps.ts';
import { summaryOf } from './summary.ts';

const homePieces = heldPieces<HomePiece>();

/** What each block of cars adds to Home; only blocks in which something was touched are gone through again. */
const piecesOf = async (session: Session, blocks: readonly CarBlock[]): Promise<HomePiece[]> => {
  const index = await referenceIndex(session);
  const { fitted, basis } = await basisOfFigures(session);
  const seen = await seenLotsOf(session);
  // By their numbers, as they are read again whenever a lot changes.
  return homePieces(session, blocks, [basis, index, [...seen].join()], async missing => {
    const ids = missing.flatMap(block => block.flatMap(car => (isOwned(seen, car) ? [car.id] : [])));
    const figures = await figuresById(session, ids);
    return block => homePiece(block, { fitted, index, seen, figures });
  });
};

const lotsById = memo(async ({ db }) => new Map((await listLots(db)).map(lot => [lot.id, lot])));
const costPieces = heldPieces<number>();

/** What the cars have cost, brought to the reporting currency at the day of their lot. */
const costOf = async (session: Session, blocks: readonly CarBlock[]): Promise<number> => {
  const books = await booksOf(session);
  const today = await session.today();
  const lots = await lotsById(session);
  const ofBlock = (block: CarBlock) =>
    block.reduce((sum, { isSold, cost, lotId }) => {
      const lot = isSold || lotId === null ? undefined : lots.get(lotId);
      if (cost === null || !lot) return sum;
      return sum + (books.convert(cost, lot.currency, lot.boughtOn ?? today) ?? 0);
    }, 0);
  const costs = await costPieces(session, blocks, [books, lots, today], async () => ofBlock);
  return costs.reduce((sum, cost) => sum + cost, 0);
};

/** Groups as they are shown, the greatest worth first. */
const listed = <Key>(groups: Map<Key, Gathered>) =>
  [...groups]
    .map(([name, { cars, sum }]) => ({ name, cars, worth: sum === null ? null : Math.round(sum) }))
    .sort((a, b) => (b.worth ?? 0) - (a.worth ?? 0) || b.cars - a.cars);

/** "purple" and "Purple" are one colour, spelled as it is met first. */
const oneSpelling = () => {
  const spellings = new Map<string, string>();
  return (text: string): string | null => {
    if (!text) return null;
    const known = spellings.get(text);
    if (known !== undefined) return known;
    const spelling = spellings.get(plain(text)) ?? text;
    spellings.set(plain(text), spelling);
    spellings.set(text, spelling);
    return spelling;
  };
};

const byRecommendation = (pieces: readonly HomePiece[]): HomeView['byRecommendation'] =>
  recommendations.flatMap(recommendation => {
    const found = pieces.flatMap(piece => piece.byRecommendation.get(recommendation) ?? []);
    const cars = found.reduce((sum, one) => sum + one.cars, 0);
    const gain = found.reduce((sum, one) => sum + one.gain, 0);
    // The gain of leaving is nothing; the figure beside it is that of the best thing not done.
    return cars === 0 ? [] : [{ recommendation, cars, gain: recommendation === 'leave' ? 0 : gain }];
  });

const inLotsOf = (pieces: readonly HomePiece[]): Map<number | null, number> => {
  const all = new Map<number | null, number>();
  for (const { inLots } of pieces) for (const [lot, cars] of inLots) all.set(lot, (all.get(lot) ?? 0) + cars);
  return all;
};

const workOut = async (session: Session): Promise<HomeView> => {
  const { db } = openOf(session).read;
  const blocks = await briefCarBlocks(session);
  await othersTurn();
  const pieces = await piecesOf(session, blocks);
  const index = await referenceIndex(session);
  const summary = await summaryOf(session);
  const counts = allCounts(pieces);
  const { correlation: _, ...total } = sumOfParts(pieces.map(({ part }) => part));
  const best = bestOf(pieces.flatMap(piece => piece.best)).map(({ id }) => id);
  const bestRows = new Map(
    (await carRows(session, await listCars(db, { ids: best }))).map(row => [row.id, row]),
  );
  const { cars, valued, paid, believed, pays, decided } = counts;
  const { saleRecords, castings } = summary.counts;
  const valueless = pieces.flatMap(piece => piece.valueless);
  const known = { cars, valueless, inLots: inLotsOf(pieces), pays, decided, saleRecords };
  const steps = await firstSteps(session, known);
  return {
    summary,
    firstSteps: steps,
    totals: {
      ...{ cars, valued, onOwn: { paid, believed }, asFound: total },
      cost: await costOf(session, blocks),
      currency: summary.reportingCurrency,
    },
    overTime: await worthOverTime(db, basisOfWorths, summary.reportingCurrency),
    bySeries: listed(
      gathered(
        pieces,
        piece => piece.bySeries,
        name => name,
      ),
    ),
    byGrade: listed(
      gathered(
        pieces,
        piece => piece.byGrade,
        name => name,
      ),
    )
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
    byColour: listed(gathered(pieces, piece => piece.byColour, oneSpelling())).map(group => ({
      ...group,
      swatch: group.name === null ? null : index.swatchOf(group.name),
    })),
    byRecommendation: byRecommendation(pieces),
    next: nextSteps({ isYoung: steps !== null, counts, saleRecords, castings }),
    best: best.flatMap(id => bestRows.get(id) ?? []),
    workingOut: null,
  };
};

const shown = keptAnswer<HomeView>('home');
const begin = underWay();

const workOutAndHold = async (session: Session, at: number, today: string): Promise<HomeView> => {
  const view = await workOut(session);
  shown.put(session, { at, today, answer: view });
  return view;
};

/** The view of before with what is known now without any figures: the summary, saved valuations, and which cars are here. */
const ofBefore = async (
  session: Session,
  view: HomeView,
  workingOut: HomeView['workingOut'],
): Promise<HomeView> => {
  const summary = await summaryOf(session);
  const cars = await allBriefCars(session);
  const seen = await seenLotsOf(session);
  return {
    ...view,
    summary,
    overTime: await worthOverTime(openOf(session).read.db, basisOfWorths, summary.reportingCurrency),
    best: view.best.filter(({ id }) => {
      const car = cars.get(id);
      return car !== undefined && isOwned(seen, car);
    }),
    workingOut,
  };
};

/**
 * The first page: what there is, what it is worth, and what to do next; the same as before as long as nothing was
 * changed. Its summary is read again, as backups are no actions. Where the figures of many cars have to be worked out
 * anew, such as after a sale record in a large collection, the page of before comes back at once and says so
 * (`workingOut`), until the new one is there.
 */
export const homeView = async (session: Session): Promise<HomeView> => {
  const { cache } = session;
  const at = cache.now();
  const today = await session.today();
  const before = await shown.last(session);
  if (before?.at === at && before.today === today)
    return { ...before.answer, summary: await summaryOf(session) };
  if (!before) return workOutAndHold(session, at, today);
  const blocks = await briefCarBlocks(session);
  const seen = await seenLotsOf(session);
  const cars = blocks.reduce((sum, block) => sum + block.filter(car => isOwned(seen, car)).length, 0);
  const { done, isNear } = await figuresThere(session, cars);
  if (isNear) return workOutAndHold(session, at, today);
  begin(session, { at, today }, () => workOutAndHold(session, at, today));
  return ofBefore(session, before.answer, { done, of: cars });
};
