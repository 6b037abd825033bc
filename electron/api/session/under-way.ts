import { setImmediate as othersTurn } from 'node:timers/promises';
import { slot } from './cache.ts';
import type { Session } from './session.ts';

/**
 * Work that goes on while its page shows what was before; the page asks again. It is begun once for the changes and the day of
 * which it is; what went wrong is told at the next call.
 */
export const underWay = () => {
  const place = slot<{ at: number; today: string; failed: { error: unknown } | null } | null>(() => null);
  return (
    { cache }: Session,
    { at, today }: { at: number; today: string },
    work: () => Promise<unknown>,
  ): void => {
    const running = cache.of(place);
    if (running?.at === at && running.today === today) {
      if (!running.failed) return;
      cache.put(place, null);
      throw running.failed.error;
    }
    const begun: NonNullable<typeof running> = { at, today, failed: null };
    cache.put(place, begun);
    // What is shown meanwhile goes out first.
    othersTurn()
      .then(work)
      .catch((error: unknown) => {
        begun.failed = { error };
      });
  };
};
