import '../service/small-heap.ts';
import { collectionExists } from '../../db/open-collection.ts';
import type { Session } from '../api/session/session.ts';
import { type BrowserHost, type Entry, startBrowserHost } from '../browser-host/browser-host.ts';
import { followed } from '../cli/progress-bar.ts';
import { type BeginOptions, newSession, openAsAsked } from '../service/begin.ts';
import { type EntryPage, writeEntryPage } from './entry-page.ts';
import { openInBrowser } from './open-in-browser.ts';

const sayIfMade = (session: Session, say: (sentence: string) => void): void => {
  const { demoDir } = session.options;
  if (!collectionExists(demoDir)) say(`Making the demo collection in ${demoDir} …`);
};

/**
 * Makes the demo where it is not there yet, so that the window opens on a collection and not on a long wait.
 */
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

/** Why the host could not be started on a port, as a sentence; null for a fault of another kind. */
const portSentence = (error: unknown, port: number): string | null => {
  const { code } = error as NodeJS.ErrnoException;
  if (code === 'EADDRINUSE')
    return `Port ${port} is taken by another program. Give another with --port, or leave it out for any that is free.`;
  if (code === 'EACCES')
    return `Port ${port} is not open to you. Give one from 1024 up with --port, or leave it out for any that is free.`;
  return null;
};

/** How long a browser may take to start and to read its page. */
const entryLifetime = 60_000;

/**
 * Leads the system's browser to the host by a page of the owner's own; returns what to do once
 * somebody has come in.
 */
const openByPage = (host: BrowserHost): (() => void) => {
  let page: EntryPage;
  try {
    page = writeEntryPage(host.newAddress(entryLifetime));
  } catch {
    // No place for a page, such as on a full disk: the printed address remains.
    return () => undefined;
  }
  process.once('exit', page.remove);
  setTimeout(page.remove, entryLifetime).unref();
  openInBrowser(page.url);
  return page.remove;
};

/** Resolves at the first signal that ends a host. */
const ended = (): Promise<void> =>
  new Promise(resolve => {
    // Heard more than once: npm passes on what the terminal has sent already, and closing must
    // not be cut short.
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => resolve());
  });

/**
 * Closes the collection; what closing could not do, such as the backup after changes, is said.
 * Returns the exit code.
 */
const closeSession = async (session: Session, say: (sentence: string) => void): Promise<number> => {
  await session.close();
  const { notices } = session.state();
  for (const notice of notices) say(notice);
  return notices.length > 0 ? 1 : 0;
};

interface ServeOptions {
  /** Folder of the built screens. */
  screens: string;
  /** Whether the system's browser is led in. */
  open: boolean;
  /** 0 for any that is free. */
  port: number;
  say: (sentence: string) => void;
}

/**
 * Serves the screens to the browser until a signal ends it; then closes the collection.
 * Returns the exit code.
 */
export const serveBrowser = async (
  options: Omit<BeginOptions, 'host'>,
  { screens, open, port, say }: ServeOptions,
): Promise<number> => {
  const begin: BeginOptions = { ...options, host: 'browser' };
  const session = newSession(begin);
  try {
    if (begin.demo) sayIfMade(session, say);
    await openAsAsked(session, begin, followed);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    say(reason);
    // The screens say why, which backups there are, and offer to open another folder.
    if (!session.state().problem) session.tell(reason);
  }
  const end = ended();
  let host: BrowserHost;
  let removePage = () => {};
  const onEntry = (outcome: Entry): void => {
    removePage();
    if (outcome === 'entered') return;
    say(
      outcome === 'used'
        ? 'Somebody came with an address that had been used already, and was not let in. If neither was you, press Ctrl+C.'
        : 'Somebody came with an address that was too old.',
    );
    say(`Playworn is also at ${host.newAddress()}`);
  };
  try {
    host = await startBrowserHost({ session, screens, port, onEntry });
  } catch (error) {
    const sentence = portSentence(error, port);
    if (!sentence) throw error;
    say(sentence);
    await closeSession(session, say);
    return 1;
  }
  say(`Playworn is at ${host.newAddress()}`);
  say(
    `This address works once, in one tab, within a quarter of an hour. ${process.stdin.isTTY ? 'Press Enter for another, Ctrl+C' : 'Ctrl+C'} to close the collection.`,
  );
  if (open) removePage = openByPage(host);
  if (process.stdin.isTTY)
    process.stdin.on('data', () => say(`Playworn is also at ${host.newAddress()}`)).unref();
  await end;
  say('Closing the collection …');
  removePage();
  await host.close();
  return closeSession(session, say);
};
