import { parentPort, workerData } from 'node:worker_threads';
import { type Choice, type ChoiceOptions, chooseUnderLimits } from '../../valuation/index.ts';

/** Solves one choice away from the thread that serves the screens; a flag in shared memory cancels it. */
const { choice, options, flag } = workerData as {
  choice: Choice;
  options: ChoiceOptions;
  flag: SharedArrayBuffer;
};
const shared = new Int32Array(flag);
const started = performance.now();
try {
  const chosen = await chooseUnderLimits(choice, {
    ...options,
    cancelled: () => Atomics.load(shared, 0) === 1,
  });
  parentPort!.postMessage({ ended: 'chosen', seconds: (performance.now() - started) / 1000, chosen });
} catch (error) {
  parentPort!.postMessage({ ended: (error as Error).name, seconds: (performance.now() - started) / 1000 });
}
