import {
  type Decision,
  type FittedMarket,
  type PlanKind,
  type Recommendation,
  recommendCar,
  type Subject,
  type Valuation,
  valueCar,
} from '../../../valuation/index.ts';
import { mainlyOwn } from '../../../valuation/wording/values/evidence-text.ts';
import type { DecisionSummary, Worths } from '../views.ts';
import { decisionSummary } from './decision-summary.ts';

/** What lists show of a car's valuation and decision; the rest is worked out again where it is asked for. */
export interface CarFigures {
  worths: Worths;
  recommendation: Recommendation;
  probability: number | null;
  expectedGain: number | null;
  /** Its decision in short. */
  weighed: Omit<DecisionSummary, 'car' | 'onBench'>;
}

/** Of these, what a row of a list says. */
export type RowFigures = Pick<CarFigures, 'worths' | 'recommendation' | 'probability' | 'expectedGain'>;

/**
 * What the worths mainly rest on, where that is no sale records; an owner's own figure rests on nothing else.
 */
const restsOn = ({ asFound, evidence }: Valuation): Pick<Worths, 'restsOn'> => {
  const own = asFound && !asFound.own ? mainlyOwn(evidence) : undefined;
  return own ? { restsOn: own } : {};
};

/** The same figures from a whole decision. */
export const figuresOfDecision = (
  valuation: Valuation,
  decision: Decision,
  planned: PlanKind,
): RowFigures => {
  const { recommendation, probability, expectedGain, options } = decision;
  const known = recommendation !== 'not-enough-evidence';
  return {
    worths: {
      asFound: valuation.asFound,
      restored: valuation.restored,
      originalFinish: valuation.originalFinish,
      cost: options.find(({ option }) => option === planned)?.cost ?? null,
      ...restsOn(valuation),
    },
    recommendation,
    probability: known ? probability : null,
    expectedGain: known ? expectedGain : null,
  };
};

/** Works a car's figures out, with the market and subject that are given. */
export const figuresOf = (fitted: FittedMarket, subject: Subject): CarFigures => {
  const valuation = valueCar(fitted, subject);
  const recommended = recommendCar(fitted, subject, valuation);
  const { recommendation, probability, expectedGain, plan } = recommended;
  return {
    worths: {
      asFound: valuation.asFound,
      restored: valuation.restored,
      originalFinish: valuation.originalFinish,
      cost: plan?.cost ?? null,
      ...restsOn(valuation),
    },
    recommendation,
    probability,
    expectedGain,
    weighed: decisionSummary(fitted, subject, recommended, valuation.help),
  };
};
