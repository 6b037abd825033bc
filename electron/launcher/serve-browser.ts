import '../service/small-heap.ts';
import { fileURLToPath } from 'node:url';
import { collectionExists } from '../../db/open-collection.ts';
import type { Session } from '../api/session/session.ts';
import { startBrowserHost } from '../browser-host/browser-host.ts';
import { followed } from '../cli/progress-bar.ts';
import { type BeginOptions, newSession, openAsAsked } from '../service/begin.ts';
import { buildStale } from './build.ts';
import { openInBrowser } from './open-in-browser.ts';

const screens = fileURLToPath(new URL('../../dist/renderer', import.meta.url));

const sayIfMade = (session: Session, say: (sentence: string) => void): void => {
  const { demoDir } = session.options;
  if (!collectionExists(demoDir)) say(`Making the demo collection in ${demoDir} …`);
};

/** Makes the demo where it is not there yet, so that the window opens on a collection and not on a long wait. */
export const makeDemo = async (
  options: Omit<BeginOptions, 'host'>,
  say: (sentence: string) => void,
): Promise<void> => {
  const begin: BeginOptions = { ...options, host: 'window' };
  const session = newSession(begin);
  if (collectionExists(session.options.demoDir)) return;
  sayIfMade(session, say);
  await openAsAsked(session, begin, followed);
  await session.close();
};

/** Serves the screens to the browser until a signal ends it; then closes the collection. Returns the exit code. */
export const serveBrowser = async (
  options: Omit<BeginOptions, 'host'>,
  { open, port, say }: { open: boolean; port: number; say: (sentence: string) => void },
): Promise<number> => {
  await buildStale(['renderer'], say);
  const begin: BeginOptions = { ...options, host: 'browser' };
  const session = newSession(begin);
  try {
    if (begin.demo) sayIfMade(session, say);
    await openAsAsked(session, begin, followed);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    say(reason);
    // With a folder named there is nothing else to show; otherwise the screens say why, and offer to open another.
    if (options.collection) return 1;
    session.tell(reason);
  }
  const host = await startBrowserHost({ session, screens, port });
  const ended = new Promise<void>(resolve => {
    // Heard more than once: npm passes on what the terminal has sent already, and closing must not be cut short.
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => resolve());
  });
  const address = host.newAddress();
  say(`Playworn is at ${address}`);
  say('This address works once, in one tab. Press Enter for another, Ctrl+C to close the collection.');
  if (open) openInBrowser(address);
  if (process.stdin.isTTY)
    process.stdin.on('data', () => say(`Playworn is also at ${host.newAddress()}`)).unref();
  await ended;
  say('Closing the collection …');
  await host.close();
  await session.close();
  return 0;
};
