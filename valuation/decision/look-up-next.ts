import { gradeStep } from '../market/assumed-curve.ts';
import type { FittedMarket } from '../market/fitted-market.ts';
import { columns } from '../market/market-columns.ts';
import { currencyDecimals } from '../money.ts';
import { type Line, worthOfLearning } from '../statistics/best-line.ts';
import { quantile } from '../statistics/quantile.ts';
import type { Minor, Subject } from '../types.ts';
import { finishStates, type Grade, grades } from '../words.ts';
import { factorsAt, type SharedLoading } from '../worth/shared-factors.ts';
import { ladderOf, type SubjectPlace, subjectPlace } from '../worth/subject-place.ts';
import { valueCar } from '../worth/value-car.ts';
import { consideredOptions } from './decision-options.ts';
import { standsAgainst } from './guards.ts';
import { gainLoading } from './season-range.ts';
import { expectedGain } from './weigh-option.ts';

/** A kind of sales to look up: so many of cars of a series, casting or variation, in a state and about a grade. */
export interface LookUp {
  of: 'series' | 'casting' | 'variation';
  id: number;
  state: 'original' | 'restored';
  grade: Grade;
  sales: number;
  /** By how much better decisions are expected to be with them, in minor units of the reporting currency. */
  worth: Minor;
  /** Cars for which something else may then be best. */
  cars: number;
}

/** So many sales are looked up at a time. */
const sales = 3;
/** What restored cars are mostly sold at. Common practice, no source. */
const restoredGrade = 8;
/** Series, castings and variations that are tried, those first whose cars leave the most open. */
const mostTried = 8;
/** A car counts as one that they may change from this share of all that they are worth. */
const counts = 0.005;

interface Open {
  subject: Subject;
  place: SubjectPlace;
  /** The ways to treat it, each with its gain and how that moves with what cars share; to leave it is all 0. */
  ways: { gain: number; loading: SharedLoading }[];
  /** What knowing all would be worth. */
  leftOpen: number;
}

const lengthOf = ({ effects, ofVariation, ofCasting, ofSeries }: SharedLoading): number =>
  Math.sqrt(effects.reduce((sum, x) => sum + x * x, ofVariation ** 2 + ofCasting ** 2 + ofSeries ** 2));

const leave: Line = { at: 0, slope: 0 };

const openOf = (fitted: FittedMarket, subject: Subject): Open | null => {
  const place = subjectPlace(fitted, subject);
  const considered = place && consideredOptions(fitted, subject, valueCar(fitted, subject));
  if (!considered) return null;
  const ways = considered
    .filter(({ note, guards }) => note === null && !standsAgainst(guards))
    .flatMap(one => {
      const loading = gainLoading(fitted, subject, one);
      return loading ? [{ gain: expectedGain(one), loading }] : [];
    });
  const leftOpen = worthOfLearning([
    leave,
    ...ways.map(one => ({ at: one.gain, slope: lengthOf(one.loading) })),
  ]);
  return ways.length > 0 && leftOpen > 0 ? { subject, place, ways, leftOpen } : null;
};

/** One sale of a kind: what it shares with cars, and the variance of what it does not. */
interface OneSale {
  loading: SharedLoading;
  apart: number;
}

export const saleOf = (
  fitted: FittedMarket,
  of: LookUp['of'],
  place: SubjectPlace,
  { state, step }: { state: LookUp['state']; step: number },
): OneSale => {
  const at = of === 'variation' ? place : { ...place, variation: -1, candidates: [] };
  const row = finishStates.indexOf(state);
  const factors = factorsAt(fitted, at, row, step);
  const loading = {
    ...factors,
    ofVariation: of === 'variation' ? factors.ofVariation : 0,
    ofCasting: of === 'series' ? 0 : factors.ofCasting,
  };
  const all = ladderOf(fitted, at).sd[row * grades.length + step]! ** 2;
  return { loading, apart: Math.max(1e-9, all - lengthOf(loading) ** 2) };
};

/** How a gain moves with the mean of the sales that are looked up, for a standard deviation of it. */
export const slopeOn = (way: SharedLoading, { loading, apart }: OneSale): number => {
  let together = 0;
  for (let k = 0; k < columns.count; k++) together += way.effects[k]! * loading.effects[k]!;
  if (way.variation >= 0 && way.variation === loading.variation)
    together += way.ofVariation * loading.ofVariation;
  if (way.casting === loading.casting) together += way.ofCasting * loading.ofCasting;
  if (way.series === loading.series) together += way.ofSeries * loading.ofSeries;
  return together / Math.sqrt(lengthOf(loading) ** 2 + apart / sales);
};

/** The places of a level whose cars leave the most open, each with those cars. */
const mostOpen = (cars: readonly Open[], placeOf: (car: Open) => number): [number, Open[]][] => {
  const sum = (group: readonly Open[]) => group.reduce((total, { leftOpen }) => total + leftOpen, 0);
  return [...Map.groupBy(cars, placeOf)]
    .filter(([place]) => place >= 0)
    .sort(([a, x], [b, y]) => sum(y) - sum(x) || a - b)
    .slice(0, mostTried);
};

interface Tried {
  lookUp: LookUp;
  place: SubjectPlace;
  series: number;
}

/** One kind tells of another where one stands above the other in the tree. */
const related = (a: Tried, b: Tried): boolean =>
  a.lookUp.state === b.lookUp.state &&
  a.series === b.series &&
  (a.lookUp.of === 'series' || b.lookUp.of === 'series' || a.place.casting === b.place.casting);

/**
 * What to look up next: three more sales of a kind, and what they are expected to be worth to the decisions on
 * these cars, the most useful first; kinds that tell mostly of the same are not listed twice. Each is taken by
 * itself. Before the sales are seen their mean moves the gain of every option by a normal of known size, from
 * the fit's posterior covariance; the worth is the mean of the best option then less the best option now
 * (preposterior analysis), gains being linear in the logs near what is expected. Costs, guards and options
 * are those of `decideCar`, without the floors. Only what is worth at least a tenth of the currency's unit is listed.
 *
 * At most some 48 kinds are tried; the time goes with the number of cars.
 * Source: Raiffa & Schlaifer, Applied Statistical Decision Theory (1961), ch. 5.
 */
export const lookUpNext = (fitted: FittedMarket, subjects: readonly Subject[], most = 5): LookUp[] => {
  const cars = subjects.flatMap(subject => openOf(fitted, subject) ?? []);
  const { castingIds, castingSeries, variationIds, seriesPlace } = fitted.inside.index;
  const seriesIds = new Map([...seriesPlace].map(([id, place]) => [place, id]));
  const tried: Tried[] = [];
  const attempt = (of: LookUp['of'], id: number, members: readonly Open[]) => {
    const { place } = members.reduce((a, b) => (b.leftOpen > a.leftOpen ? b : a));
    const middle = quantile(
      members.map(({ subject }) => subject.grade ?? fitted.assumptions.unknownGrade),
      0.5,
    );
    for (const state of ['restored', 'original'] as const) {
      const grade = state === 'restored' ? restoredGrade : Math.round(middle * 2) / 2;
      const sale = saleOf(fitted, of, place, { state, step: gradeStep(grade) });
      const worths = cars.map(({ ways }) =>
        worthOfLearning([leave, ...ways.map(one => ({ at: one.gain, slope: slopeOn(one.loading, sale) }))]),
      );
      const worth = worths.reduce((sum, one) => sum + one, 0);
      const changed = worths.filter(one => one > 0 && one >= counts * worth).length;
      const lookUp: LookUp = { of, id, state, grade, sales, worth: Math.round(worth), cars: changed };
      tried.push({ lookUp, place, series: castingSeries[place.casting]! });
    }
  };
  for (const [s, members] of mostOpen(cars, ({ place }) => castingSeries[place.casting]!))
    attempt('series', seriesIds.get(s)!, members);
  for (const [c, members] of mostOpen(cars, ({ place }) => place.casting))
    attempt('casting', castingIds[c]!, members);
  for (const [v, members] of mostOpen(cars, ({ place }) => place.variation))
    attempt('variation', variationIds[v]!, members);
  const least = 10 ** currencyDecimals(fitted.reportingCurrency) / 10;
  const kept: Tried[] = [];
  for (const one of tried.sort((a, b) => b.lookUp.worth - a.lookUp.worth))
    if (one.lookUp.worth >= least && !kept.some(other => related(one, other))) kept.push(one);
  return kept.slice(0, most).map(({ lookUp }) => lookUp);
};
