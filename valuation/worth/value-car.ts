import type { FittedMarket } from '../market/fitted-market.ts';
import type { Help, Subject, Valuation } from '../types.ts';
import {
  type Condition,
  foundCondition,
  ladderLogs,
  originalCondition,
  ownLogs,
  type WorthLogs,
  worthOfEnds,
  worthOfLogs,
} from './car-worths.ts';
import { varianceApart } from './coupling.ts';
import { evidenceOf, noEvidence } from './evidence-of.ts';
import { isEnough } from './evidence-width.ts';
import { judgedPlan } from './proposed-ends.ts';
import { ladderOf, subjectPlace } from './subject-place.ts';

/** How a car is valued: by the market's ladder, by the owner's own figure, or not at all. */
export type Appraise = ((condition: Condition) => WorthLogs) | null;

/**
 * The way to a car's worths in any condition. Null where there is neither enough evidence nor a
 * figure of the owner's.
 */
export const appraiser = (fitted: FittedMarket, subject: Subject): Appraise => {
  const place = subjectPlace(fitted, subject);
  const { curve } = fitted.inside;
  if (place !== null && isEnough(fitted, place)) {
    const ladder = ladderOf(fitted, place);
    return condition => ladderLogs(ladder, condition);
  }
  const own = subject.ownWorth;
  if (!own) return null;
  const found = foundCondition(subject, fitted.assumptions);
  return condition =>
    ownLogs(own, found, condition, { curve, apart: varianceApart(fitted, found, condition) });
};

/**
 * The three worths of a car in minor units of the reporting currency at the market's date: as found;
 * restored, as its plan (or the proposed one) leaves it, over the grades that it can end in; and with its
 * factory finish, as conserving alone can show it, marked where that is no longer attainable. Low and high
 * hold 80 % of the sales of such a car; mid is their median. Where its sales tell too little of it each worth
 * is null, and `help` says what would help; the owner's own figure stands in if there is one.
 *
 * Throws RangeError on a grade that is none, or an own worth out of order.
 */
export const valueCar = (fitted: FittedMarket, subject: Subject): Valuation => {
  const { assumptions } = fitted;
  const { ends, fidelity } = judgedPlan(subject, assumptions);
  const place = subjectPlace(fitted, subject);
  const found = foundCondition(subject, assumptions);
  const appraise = appraiser(fitted, subject);
  const evidence =
    place === null ? noEvidence() : evidenceOf(fitted, place, ladderOf(fitted, place), found.step);
  const help: Help[] = [];
  const worthIn = (condition: Condition) => (appraise ? worthOfLogs(appraise(condition)) : null);
  const asFound = worthIn(found);
  if (!asFound || asFound.own) help.push(place === null ? 'identify' : 'sale-records');
  if (!asFound) help.push('own-figure');
  else if (!asFound.own) {
    if (place !== null && place.variation < 0) help.push('choose-variation');
    if (subject.grade === null) help.push('grade');
  }
  return {
    id: subject.id,
    asFound,
    restored: appraise ? worthOfEnds(ends, appraise) : null,
    originalFinish: worthIn(originalCondition(subject, assumptions)),
    fidelity,
    evidence,
    help,
  };
};
