import { app, type Session, session, shell, type WebContents } from 'electron';
import { isScreensUrl } from './screens-scheme.ts';

const isHttps = (url: string): boolean => {
  try {
    return new URL(url).protocol === 'https:';
  } catch {
    return false;
  }
};

/** Opens a page in the system's browser, if it is an https address. */
export const openExternal = async (url: string): Promise<void> => {
  if (isHttps(url)) await shell.openExternal(url);
};

const allowedSchemes = new Set(['app:', 'blob:', 'data:', 'devtools:']);

/** The screens never need the network, a device or a permission; nothing is asked, everything is denied. */
const denyAll = (of: Session): void => {
  of.setPermissionCheckHandler(() => false);
  of.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  of.setDevicePermissionHandler(() => false);
  of.webRequest.onBeforeRequest(({ url }, answer) =>
    answer({ cancel: !allowedSchemes.has(new URL(url).protocol) }),
  );
};

/**
 * The main process is not asked before a page goes to about:blank. The preload refuses that; should a page
 * get there all the same, the screens are shown again.
 */
const keepFromBlank = (contents: WebContents): void => {
  let shown = '';
  contents.on('did-navigate', (_event, url) => {
    if (url.startsWith('about:') && isScreensUrl(shown)) contents.loadURL(shown).catch(() => undefined);
    else shown = url;
  });
};

/** Must run before any window exists: every page made from then on stays where it is and opens nothing. */
export const lockDown = (): void => {
  denyAll(session.defaultSession);
  app.on('session-created', denyAll);
  app.on('web-contents-created', (_event, contents) => {
    const stay = (event: { preventDefault(): void; url: string }) => {
      if (!isScreensUrl(event.url)) event.preventDefault();
    };
    contents.on('will-navigate', stay);
    contents.on('will-redirect', stay);
    contents.on('will-frame-navigate', stay);
    keepFromBlank(contents);
    // A data channel would pass by the session's filter of requests.
    contents.setWebRTCIPHandlingPolicy('disable_non_proxied_udp');
    contents.on('will-attach-webview', event => event.preventDefault());
    contents.setWindowOpenHandler(({ url }) => {
      void openExternal(url);
      return { action: 'deny' };
    });
  });
};
