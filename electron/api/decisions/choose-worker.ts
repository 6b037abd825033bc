import { parentPort, workerData } from 'node:worker_threads';
import {
  type ChosenSeason,
  chooseSeason,
  type SeasonCar,
  type SeasonLimits,
} from '../../../valuation/index.ts';

/** What is to be chosen from: cars with all that can be done with them. */
export interface ChooseWish {
  cars: SeasonCar[];
  limits: SeasonLimits;
}

/** What the worker is started with; `stop` is set to 1 to end the solver. */
export interface ChooseJob {
  wish: ChooseWish;
  stop: Int32Array;
}

export type ChooseAnswer =
  | { kind: 'chosen'; chosen: ChosenSeason }
  | { kind: 'refused'; message: string }
  | { kind: 'failed'; message: string };

const choose = async ({ wish, stop }: ChooseJob): Promise<ChooseAnswer> => {
  try {
    const cancelled = () => Atomics.load(stop, 0) === 1;
    return { kind: 'chosen', chosen: await chooseSeason(wish, { cancelled }) };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { kind: error instanceof RangeError ? 'refused' : 'failed', message };
  }
};

if (parentPort) {
  const port = parentPort;
  void choose(workerData as ChooseJob).then(answer => port.postMessage(answer));
}
