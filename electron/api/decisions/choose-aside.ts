import { Worker } from 'node:worker_threads';
import type { ChosenSeason } from '../../../valuation/index.ts';
import type { ChooseAnswer, ChooseJob, ChooseWish } from './choose-worker.ts';

/**
 * Chooses in a worker thread, so that other calls are answered meanwhile. Aborting the signal rejects
 * with its reason at once, and ends the thread. `worker` is the worker's file where it does
 * not lie beside this one. Rejects with RangeError where the wish cannot be met.
 */
export const chooseAside = (
  wish: ChooseWish,
  worker = new URL('./choose-worker.ts', import.meta.url),
  signal?: AbortSignal,
): Promise<ChosenSeason> => {
  signal?.throwIfAborted();
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const job: ChooseJob = { wish, stop };
  const thread = new Worker(worker, { workerData: job });
  let abort = () => {};
  return new Promise<ChosenSeason>((resolve, reject) => {
    // Nobody waits for the solver to notice: the thread is ended with the promise.
    abort = () => {
      Atomics.store(stop, 0, 1);
      reject(signal!.reason);
    };
    signal?.addEventListener('abort', abort, { once: true });
    thread.once('message', (answer: ChooseAnswer) => {
      if (answer.kind === 'chosen') resolve(answer.chosen);
      else reject(answer.kind === 'refused' ? new RangeError(answer.message) : new Error(answer.message));
    });
    thread.once('error', reject);
    thread.once('exit', () => reject(new Error('The calculation ended without an answer.')));
  }).finally(() => {
    signal?.removeEventListener('abort', abort);
    return thread.terminate();
  });
};
