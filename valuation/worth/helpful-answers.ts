import type { FittedMarket } from '../market/fitted-market.ts';
import { quantile } from '../statistics/quantile.ts';
import type { Subject } from '../types.ts';
import type { Grade } from '../words.ts';
import { isEnough } from './evidence-of.ts';
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
   * So many sales of today of the casting, each of a source that is not named; by any casting of the series
   * it would be the same.
   */
  | { kind: 'sales'; castingId: number; seriesId: number; grade: Grade; sales: number; cars: number }
  /** What the name means; `waiting` cars have it, and can be compared with anything only then. */
  | { kind: 'name'; name: string; waiting: number; cars: number };

/** A car, as far as it matters whether it has a value. */
export type Unvalued = Pick<Subject, 'castingId' | 'variationId' | 'candidates' | 'grade' | 'ownWorth'>;

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
 * value at all: a belief about a series is always enough, sales as far as their weight makes up what the
 * series lacks. Names that help no car by themselves come last, by the cars that wait under them. Cars with a
 * figure of the owner's own, and those in series of which enough is known, need none.
 */
export const helpfulAnswers = (
  fitted: FittedMarket,
  cars: readonly Unvalued[],
  names: readonly WaitingAnswer[],
): HelpfulAnswer[] => {
  const { index, evidence } = fitted.inside;
  const { leastEvidence, sourceReliability, unknownGrade } = fitted.assumptions;
  const bySeries = new Map<number, { casting: number; car: Unvalued }[]>();
  for (const car of cars) {
    if (car.ownWorth) continue;
    const place = subjectPlace(fitted, car);
    if (!place) continue;
    const series = index.castingSeries[place.casting]!;
    if (isEnough(fitted, series)) continue;
    const found = bySeries.get(series) ?? [];
    found.push({ casting: place.casting, car });
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
    const lacks = leastEvidence - evidence.seriesWeight[series]!;
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
        // The least evidence may be reached to the last bit of it by the records that there are.
        sales: Math.max(1, Math.ceil(lacks / reliability)),
        cars: members.length,
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
