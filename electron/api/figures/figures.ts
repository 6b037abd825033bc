import { readSubjects } from '../../../db/engine/subjects.ts';
import type { CarRecord } from '../../../db/records/cars.ts';
import {
  type FittedMarket,
  type Recommendation,
  recommendCar,
  type Subject,
  valueCar,
} from '../../../valuation/index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { DecisionSummary, Worths } from '../views.ts';
import { decisionSummary } from './decision-summary.ts';
import { marketToday } from './market.ts';

/** What lists show of a car's valuation and decision; the rest is worked out again where it is asked for. */
export interface CarFigures {
  worths: Worths;
  recommendation: Recommendation;
  probability: number | null;
  expectedGain: number | null;
  /** Its decision in short. */
  weighed: Omit<DecisionSummary, 'car'>;
}

interface Kept {
  fitted: FittedMarket;
  /** Cars that are alike in all that counts share their figures. */
  alike: Map<string, CarFigures>;
  /** Version of the cars at which all of them were last looked through. */
  wholeAt: number;
  /** By car id: what the figures were worked out from, and the figures. */
  cars: Map<number, { from: string; figures: CarFigures }>;
}

const kept = new WeakMap<Session, Kept>();

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
    },
    recommendation,
    probability,
    expectedGain,
    weighed: decisionSummary(fitted, subject, recommended, valuation.help),
  };
};

/**
 * Figures of the given cars. Those of a car are worked out again only where the market, or the car itself (its grade,
 * parts, plan, …), has changed; `whole` says that these are all the collection's cars.
 */
export const carFigures = async (
  session: Session,
  cars: CarRecord[],
  whole: boolean,
): Promise<Map<number, CarFigures>> => {
  const { db } = openOf(session);
  const fitted = await marketToday(session);
  let state = kept.get(session);
  if (state?.fitted !== fitted) {
    state = { fitted, alike: new Map(), wholeAt: -1, cars: new Map() };
    kept.set(session, state);
  }
  const version = session.versions.cars;
  if (state.wholeAt !== version) {
    const before = state.cars;
    const now: Kept['cars'] = whole ? new Map() : before;
    for (const subject of await readSubjects(db, cars, whole)) {
      const from = JSON.stringify({ ...subject, id: 0 });
      const found = before.get(subject.id);
      if (found?.from === from) {
        now.set(subject.id, found);
        continue;
      }
      const figures = state.alike.get(from) ?? figuresOf(fitted, subject);
      state.alike.set(from, figures);
      now.set(subject.id, { from, figures });
    }
    state.cars = now;
    if (whole) state.wholeAt = version;
  }
  const answer = new Map<number, CarFigures>();
  for (const car of cars) {
    const found = state.cars.get(car.id);
    if (found) answer.set(car.id, found.figures);
  }
  return answer;
};
