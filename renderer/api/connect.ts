import { connectApi } from './client.ts';
import { httpLink } from './http-link.ts';
import { portLink } from './port-link.ts';

/** Reaches the service: over the window's port under the app's own scheme, over loopback HTTP in a browser. */
export const connect = (): void => {
  connectApi(location.protocol === 'app:' ? portLink() : httpLink());
};
