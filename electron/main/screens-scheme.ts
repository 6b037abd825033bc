import { randomBytes } from 'node:crypto';
import { protocol, type Session } from 'electron';
import { everyAnswerHeaders } from '../boundary/policy.ts';
import { screenFile } from '../boundary/screen-files.ts';

const scheme = 'app';
const host = 'playworn';

/** Where the window starts; the screens keep their own place in the fragment. */
export const screensUrl = `${scheme}://${host}/`;

/**
 * True for a document of ours. Told by its parts: a URL of an own scheme has no origin outside the browser.
 */
export const isScreensUrl = (url: string): boolean => {
  try {
    const { protocol: urlScheme, host: urlHost, username, password } = new URL(url);
    return urlScheme === `${scheme}:` && urlHost === host && !username && !password;
  } catch {
    return false;
  }
};

/**
 * Must run before the app is ready: gives the scheme an origin, storage and a secure context, and
 * nothing that bypasses.
 */
export const registerScreensScheme = (): void =>
  protocol.registerSchemesAsPrivileged([
    { scheme, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
  ]);

/** Serves the built screens, and nothing else, under the scheme. */
export const serveScreens = (session: Session, folder: string): void => {
  const refuse = (status: number) => new Response(null, { status, headers: everyAnswerHeaders });
  session.protocol.handle(scheme, async request => {
    if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405);
    if (!isScreensUrl(request.url)) return refuse(404);
    const file = await screenFile(folder, new URL(request.url).pathname, randomBytes(16).toString('base64'));
    return file ? new Response(file.body, { headers: file.headers }) : refuse(404);
  });
};
