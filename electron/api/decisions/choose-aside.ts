import { Worker } from 'node:worker_threads';
import type { CarCandidate, CarLimits, ChosenCars } from '../../../valuation/index.ts';
import type { ChooseAnswer, ChooseJob } from './choose-worker.ts';

interface ChooseWish {
  candidates: CarCandidate[];
  limits: CarLimits;
  cashUnit: number;
}

/**
 * Chooses in a worker thread, so that other calls are answered meanwhile. Aborting the signal stops the
 * solver within a moment and rejects with the signal's reason. `worker` is the worker's file where it does
 * not lie beside this one. Rejects with RangeError where the wish cannot be met.
 */
export const chooseAside = (
  wish: ChooseWish,
  worker = new URL('./choose-worker.ts', import.meta.url),
  signal?: AbortSignal,
): Promise<ChosenCars> => {
  signal?.throwIfAborted();
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const job: ChooseJob = { ...wish, stop };
  const thread = new Worker(worker, { workerData: job });
  const abort = () => Atomics.store(stop, 0, 1);
  signal?.addEventListener('abort', abort, { once: true });
  return new Promise<ChosenCars>((resolve, reject) => {
    thread.once('message', (answer: ChooseAnswer) => {
      if (signal?.aborted) reject(signal.reason);
      else if (answer.kind === 'chosen') resolve(answer.chosen);
      else reject(answer.kind === 'refused' ? new RangeError(answer.message) : new Error(answer.message));
    });
    thread.once('error', reject);
    thread.once('exit', () => reject(new Error('The calculation ended without an answer.')));
  }).finally(() => {
    signal?.removeEventListener('abort', abort);
    return thread.terminate();
  });
};
