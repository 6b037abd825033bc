import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { Progress } from '../../electron/api/views.ts';
import { errorSentence } from './error-sentence.ts';
import { askEverythingAgain } from './query-client.ts';

export type WorkState<T> =
  | { is: 'idle' }
  | { is: 'running'; done: number; total: number; stage: string; quietFor?: number }
  | { is: 'done'; result: T }
  | { is: 'failed'; error: unknown; sentence: string }
  | { is: 'cancelled' };

export interface Work<T> {
  state: WorkState<T>;
  /**
   * Starts the work: `work.start(signal => api.imports.run(input, { signal }))`. Resolves to its
   * result, or null.
   */
  start: (open: (signal: AbortSignal) => Promise<AsyncIterable<Progress<T>>>) => Promise<T | null>;
  cancel: () => void;
  reset: () => void;
}

/** The result of long work of which nobody follows the progress; leaving it cancels the work. */
export const resultOf = async <T>(work: AsyncIterable<Progress<T>>): Promise<T> => {
  for await (const step of work) if (step.type === 'done') return step.result;
  throw new Error('The work ended without a result.');
};

/**
 * Long work of the service: its progress as it goes, its result, and a cancel. Leaving the screen cancels it.
 */
export const useProgress = <T>(): Work<T> => {
  const client = useQueryClient();
  const [state, setState] = useState<WorkState<T>>({ is: 'idle' });
  const controller = useRef<AbortController | null>(null);
  useEffect(() => () => controller.current?.abort(), []);
  const start: Work<T>['start'] = useCallback(
    async open => {
      controller.current?.abort();
      const own = new AbortController();
      controller.current = own;
      const say = (next: WorkState<T>) => {
        if (controller.current === own) setState(next);
      };
      say({ is: 'running', done: 0, total: 0, stage: '' });
      try {
        for await (const event of await open(own.signal)) {
          if (event.type === 'progress') say({ is: 'running', ...event });
          else {
            await askEverythingAgain(client);
            say({ is: 'done', result: event.result });
            return event.result;
          }
        }
        say({ is: 'cancelled' });
      } catch (error) {
        say(
          own.signal.aborted ? { is: 'cancelled' } : { is: 'failed', error, sentence: errorSentence(error) },
        );
      }
      return null;
    },
    [client],
  );
  const cancel = useCallback(() => controller.current?.abort(), []);
  const reset = useCallback(() => {
    controller.current?.abort();
    controller.current = null;
    setState({ is: 'idle' });
  }, []);
  return { state, start, cancel, reset };
};
