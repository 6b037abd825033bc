import { createRouterClient, type RouterClient } from '@orpc/server';
import { collectionExists } from '../../db/open-collection.ts';
import { type AppRouter, router } from '../api/router.ts';
import type { Session } from '../api/session/session.ts';
import { newSession } from '../service/begin.ts';
import { endRefused, exitCodes, Refused, say } from './terminal.ts';

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

/**
 * Interrupts that a user sends while a command runs: the first stops the work, none cuts the closing short.
 */
const interruptions = () => {
  const controller = new AbortController();
  let closing = false;
  let told = '';
  const tell = () => {
    const sentence = closing ? 'Closing the collection; this takes a moment.' : 'Stopping …';
    // Ctrl+C may arrive twice, from a terminal and from a program in between.
    if (sentence !== told) say(sentence);
    told = sentence;
  };
  const interrupt = () => {
    tell();
    controller.abort();
  };
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  for (const signal of signals) process.on(signal, interrupt);
  return {
    signal: controller.signal,
    closing() {
      closing = true;
      if (controller.signal.aborted) tell();
    },
    end() {
      for (const signal of signals) process.off(signal, interrupt);
    },
  };
};

/**
 * Runs a command with the collection open, and closes it whatever happens. What closing could not do, such as
 * the backup after changes, is said and ends with 1; work that an interrupt stopped ends with 130.
 */
export const withCollection = async <T>(
  { collection, demo, mayBeMissing, unopened }: Opening,
  work: (context: CommandContext) => Promise<T>,
): Promise<T> => {
  const session = newSession({ host: 'command line', collection, demo });
  const interrupts = interruptions();
  try {
    const api: Api = createRouterClient(router, { context: { session } });
    const dir = session.options.defaultDir;
    if (!demo && !unopened && collectionExists(dir)) {
      const { notices } = await api.collection.open({ dir });
      for (const notice of notices) say(notice);
    } else if (!mayBeMissing && !unopened) throw noCollection(dir);
    return await work({ api, session, signal: interrupts.signal });
  } catch (error) {
    if (interrupts.signal.aborted) process.exitCode = exitCodes.interrupted;
    throw error;
  } finally {
    interrupts.closing();
    await session.close();
    // Writing a backup hears no signals; one that came meanwhile is answered now.
    await new Promise(setImmediate);
    for (const notice of session.state().notices) endRefused(notice);
    interrupts.end();
  }
};
