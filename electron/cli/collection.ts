import { createRouterClient, type RouterClient } from '@orpc/server';
import { collectionExists } from '../../db/open-collection.ts';
import { type AppRouter, router } from '../api/router.ts';
import type { Session } from '../api/session/session.ts';
import { newSession } from '../service/begin.ts';
import { Refused, say } from './terminal.ts';

/** The procedures that the window and the browser call, called in this process. */
export type Api = RouterClient<AppRouter>;

export interface CommandContext {
  api: Api;
  session: Session;
  /** Aborts when the user interrupts; long work takes it. */
  signal: AbortSignal;
}

interface Opening {
  collection: string;
  /** For `demo`, which makes its own collection. */
  demo?: boolean;
  /** For commands that make a missing collection. */
  mayBeMissing?: boolean;
  /** For `restore`, whose collection may be beyond opening. */
  unopened?: boolean;
}

export const noCollection = (dir: string): Refused =>
  new Refused(`There is no collection in ${dir}. Start one with "playworn import" or "playworn demo".`);

/** Runs a command with the collection open, and closes it whatever happens. An interrupt cancels the work first. */
export const withCollection = async <T>(
  { collection, demo, mayBeMissing, unopened }: Opening,
  work: (context: CommandContext) => Promise<T>,
): Promise<T> => {
  const session = newSession({ host: 'command line', collection, demo });
  const controller = new AbortController();
  const interrupt = () => controller.abort();
  // Heard more than once, so that closing is not cut short.
  process.on('SIGINT', interrupt).on('SIGTERM', interrupt);
  try {
    const api: Api = createRouterClient(router, { context: { session } });
    const dir = session.options.defaultDir;
    if (!demo && !unopened && collectionExists(dir)) {
      const { notices } = await api.collection.open({ dir });
      for (const notice of notices) say(notice);
    } else if (!mayBeMissing && !unopened) throw noCollection(dir);
    return await work({ api, session, signal: controller.signal });
  } finally {
    process.off('SIGINT', interrupt).off('SIGTERM', interrupt);
    await session.close();
  }
};
