import { parentPort, workerData } from 'node:worker_threads';
import {
  type CarCandidate,
  type CarLimits,
  type ChosenCars,
  type ChosenSeason,
  chooseCars,
  chooseSeason,
  type SeasonCar,
} from '../../../valuation/index.ts';

/** What is to be chosen from: cars with one plan each, or with all that can be done with them. */
export type ChooseWish =
  | { candidates: CarCandidate[]; limits: CarLimits; cashUnit: number }
  | { cars: SeasonCar[]; limits: CarLimits };

/** What the worker is started with; `stop` is set to 1 to end the solver. */
export interface ChooseJob {
  wish: ChooseWish;
  stop: Int32Array;
}

export type ChooseAnswer =
  | { kind: 'chosen'; chosen: ChosenCars | ChosenSeason }
  | { kind: 'refused'; message: string }
  | { kind: 'failed'; message: string };

const choose = async ({ wish, stop }: ChooseJob): Promise<ChooseAnswer> => {
  try {
    const cancelled = () => Atomics.load(stop, 0) === 1;
    const chosen =
      'cars' in wish
        ? await chooseSeason(wish, { cancelled })
        : await chooseCars(wish, { cashUnit: wish.cashUnit, cancelled });
    return { kind: 'chosen', chosen };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { kind: error instanceof RangeError ? 'refused' : 'failed', message };
  }
};

if (parentPort) {
  const port = parentPort;
  void choose(workerData as ChooseJob).then(answer => port.postMessage(answer));
}
