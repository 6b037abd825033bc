import { connectApi } from './client.ts';
import { httpLink } from './http-link.ts';
import { portLinks, type ShellApi } from './port-link.ts';

const inWindow = location.protocol === 'app:';
const links = inWindow ? portLinks() : null;

/** The window's own menu and dialogs; null in a browser, which has none. */
export const shell: Promise<ShellApi | null> = links
  ? links.then(ports => ports.shell)
  : Promise.resolve(null);

/**
 * Reaches the service: over the window's port under the app's own scheme, over loopback HTTP in a browser.
 */
export const connect = (): void => connectApi(links ? links.then(ports => ports.service) : httpLink());
