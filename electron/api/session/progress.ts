import { AsyncIteratorClass } from '@orpc/server';
import type { Progress } from '../views.ts';
import { toApiError } from './errors.ts';

/** Called by long work as it goes on; only the latest report is kept until someone looks. */
export type OnProgress = (done: number, total: number, stage: string) => void;

/**
 * After so long without news a stream says what it is waiting for, and again each time as long has passed.
 */
const quietSeconds = 20;

/**
 * Runs long work as a stream: its progress, then its result. Where nothing is heard for a while, the stage is
 * told again. Leaving the stream, or aborting the call, aborts the signal that the work was given. Errors
 * come out of the stream as a procedure's do.
 */
export const streamed = <T>(
  work: (onProgress: OnProgress, signal: AbortSignal) => Promise<T>,
  signal?: AbortSignal,
): AsyncIteratorClass<Progress<T>, void, void> => {
  const controller = new AbortController();
  const stop = () => controller.abort();
  signal?.addEventListener('abort', stop, { once: true });
  if (signal?.aborted) stop();

  let latest: Progress<T> | null = null;
  let stage: { done: number; total: number; stage: string } = { done: 0, total: 0, stage: 'Starting' };
  let quietFor = 0;
  let wake = () => {};
  let running: Promise<T> | null = null;
  let finished: { result: T } | { error: unknown } | null = null;
  let told = false;

  const start = () => {
    running ??= work((done, total, what) => {
      stage = { done, total, stage: what };
      quietFor = 0;
      latest = { type: 'progress', ...stage };
      wake();
    }, controller.signal);
    running.then(
      result => {
        finished = { result };
        wake();
      },
      error => {
        finished = { error };
        wake();
      },
    );
  };

  const next = async (): Promise<IteratorResult<Progress<T>, void>> => {
    if (told) return { done: true, value: undefined };
    if (!running) start();
    if (!latest && !finished) {
      const watchdog = setTimeout(() => {
        quietFor += quietSeconds;
        latest = { type: 'progress', ...stage, quietFor };
        wake();
      }, quietSeconds * 1000);
      await new Promise<void>(resolve => {
        wake = resolve;
      });
      clearTimeout(watchdog);
    }
    if (latest) {
      const value = latest;
      latest = null;
      return { done: false, value };
    }
    told = true;
    if (!finished) return { done: true, value: undefined };
    if ('error' in finished) throw toApiError(finished.error);
    return { done: false, value: { type: 'done', result: finished.result } };
  };

  return new AsyncIteratorClass(next, async () => {
    signal?.removeEventListener('abort', stop);
    stop();
    wake();
  });
};
