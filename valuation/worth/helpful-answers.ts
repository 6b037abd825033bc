import type { FittedMarket } from '../market/fitted-market.ts';
import { quantile } from '../statistics/quantile.ts';
import type { Subject } from '../types.ts';
import type { Grade } from '../words.ts';
import { castingPrecision, evidencePrecisions, isEnough, isNarrow, towardsSeries } from './evidence-width.ts';
import { subjectPlace } from './subject-place.ts';

/** Names that wait to be settled, as the caller knows them. */
export interface WaitingAnswer {
  name: string;
  /** Cars under it, and those of them that are sure to have a value once it is settled. */
  cars: number;
  valued: number;
}

/** An answer that the owner could give. `cars` have no value yet and would have one by it alone. */
export type HelpfulAnswer =
  /** What a common car of the series brings, at the usual grade of these cars. */
  | { kind: 'belief'; seriesId: number; grade: Grade; cars: number }
  /**
   * So many sales of today of the casting, each of a source that is not named and of a variation that is not
   * named: the fewest with which all its cars have a value. `cars` are those of the series that then have one.
   */
  | { kind: 'sales'; castingId: number; seriesId: number; grade: Grade; sales: number; cars: number }
  /** What the name means; `waiting` cars have it, and can be compared with anything only then. */
  | { kind: 'name'; name: string; waiting: number; cars: number };

/** A car, as far as it matters whether it has a value. */
export type Unvalued = Pick<Subject, 'castingId' | 'variationId' | 'candidates' | 'grade' | 'ownWorth'>;

/** Beyond so many sales it is no help to ask for them. */
const mostAsked = 50;

/** A car without a value, and its place. */
interface Lacking {
  variation: number;
  casting: number;
  car: Unvalued;
}

/**
 * The fewest sales of a casting with which all its cars have a value, and how many of its series have one
 * then; null where no reasonable number would do.
 */
const salesNeeded = (
  fitted: FittedMarket,
  members: readonly Lacking[],
  casting: number,
): { sales: number | null; helped: number } => {
  const { assumptions, inside } = fitted;
  const told = evidencePrecisions(fitted);
  const before = told.castings[casting]!;
  const series = told.series[inside.index.castingSeries[casting]!]!;
  for (let sales = 1; sales <= mostAsked; sales++) {
    const after = before + castingPrecision(assumptions.sourceReliability.other ?? 1, sales, assumptions);
    const helps = (one: Lacking) =>
      isNarrow(
        {
          variation: one.variation < 0 ? 0 : told.variations[one.variation]!,
          casting: one.casting === casting ? after : told.castings[one.casting]!,
          series: series + towardsSeries(after, assumptions) - towardsSeries(before, assumptions),
        },
        assumptions,
      );
    if (members.every(one => one.casting !== casting || helps(one)))
      return { sales, helped: members.filter(helps).length };
  }
  return { sales: null, helped: 0 };
};

const usualGrade = (cars: readonly Unvalued[], unknown: Grade): Grade => {
  const middle = quantile(
    cars.map(({ grade }) => grade ?? unknown),
    0.5,
  );
  return Math.round(middle * 2) / 2;
};

const order = ['name', 'belief', 'sales'] as const;

/**
 * The single answers that would give cars a value which have none, the one that helps the most cars first; at
 * equal numbers a name before a belief before sales. What counts is `isEnough`, the rule by which a car has a
 * value at all: a belief about a series is always enough, sales as far as they narrow the estimate down. Names
 * that help no car by themselves come last, by the cars that wait under them. Cars with a figure of the owner's
 * own, and those of which enough is known, need none.
 */
export const helpfulAnswers = (
  fitted: FittedMarket,
  cars: readonly Unvalued[],
  names: readonly WaitingAnswer[],
): HelpfulAnswer[] => {
  const { index } = fitted.inside;
  const { sourceReliability, unknownGrade } = fitted.assumptions;
  const bySeries = new Map<number, Lacking[]>();
  for (const car of cars) {
    if (car.ownWorth) continue;
    const place = subjectPlace(fitted, car);
    if (!place) continue;
    if (isEnough(fitted, place)) continue;
    const series = index.castingSeries[place.casting]!;
    const found = bySeries.get(series) ?? [];
    found.push({ ...place, car });
    bySeries.set(series, found);
  }
  const seriesIds = new Map([...index.seriesPlace].map(([id, place]) => [place, id]));
  const reliability = sourceReliability.other ?? 1;
  const answers: HelpfulAnswer[] = [...bySeries].flatMap(([series, members]): HelpfulAnswer[] => {
    const seriesId = seriesIds.get(series)!;
    const grade = usualGrade(
      members.map(({ car }) => car),
      unknownGrade,
    );
    const belief: HelpfulAnswer = { kind: 'belief', seriesId, grade, cars: members.length };
    if (!(reliability > 0)) return [belief];
    const byCasting = [...Map.groupBy(members, ({ casting }) => casting)].sort(
      ([a, x], [b, y]) => y.length - x.length || a - b,
    );
    const [casting, most] = byCasting[0]!;
    const { sales, helped } = salesNeeded(fitted, members, casting);
    if (sales === null) return [belief];
    return [
      belief,
      {
        kind: 'sales',
        castingId: index.castingIds[casting]!,
        seriesId,
        grade: usualGrade(
          most.map(({ car }) => car),
          unknownGrade,
        ),
        sales,
        cars: helped,
      },
    ];
  });
  for (const { name, cars: waiting, valued } of names)
    if (waiting > 0) answers.push({ kind: 'name', name, waiting, cars: valued });
  const waitingOf = (answer: HelpfulAnswer) => (answer.kind === 'name' ? answer.waiting : 0);
  return answers.sort(
    (a, b) => b.cars - a.cars || waitingOf(b) - waitingOf(a) || order.indexOf(a.kind) - order.indexOf(b.kind),
  );
};
