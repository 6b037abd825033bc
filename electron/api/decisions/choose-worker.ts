import { parentPort, workerData } from 'node:worker_threads';
import { type CarCandidate, type CarLimits, type ChosenCars, chooseCars } from '../../../valuation/index.ts';

/** What the worker is started with; `stop` is set to 1 to end the solver. */
export interface ChooseJob {
  candidates: CarCandidate[];
  limits: CarLimits;
  cashUnit: number;
  stop: Int32Array;
}

export type ChooseAnswer =
  | { kind: 'chosen'; chosen: ChosenCars }
  | { kind: 'refused'; message: string }
  | { kind: 'failed'; message: string };

const choose = async ({ candidates, limits, cashUnit, stop }: ChooseJob): Promise<ChooseAnswer> => {
  try {
    const cancelled = () => Atomics.load(stop, 0) === 1;
    return { kind: 'chosen', chosen: await chooseCars({ candidates, limits }, { cashUnit, cancelled }) };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { kind: error instanceof RangeError ? 'refused' : 'failed', message };
  }
};

if (parentPort) {
  const port = parentPort;
  void choose(workerData as ChooseJob).then(answer => port.postMessage(answer));
}
