import { RPCLink } from '@orpc/client/message-port';
import type { ApiLink } from './client.ts';

const announcement = 'playworn:port';

/** Waits for the port that the preload script hands to this very window, and for no other message. */
export const portLink = (): Promise<ApiLink> =>
  new Promise(resolve => {
    const take = (event: MessageEvent) => {
      const [port] = event.ports;
      if (event.source !== window || event.data !== announcement || !port) return;
      window.removeEventListener('message', take);
      port.start();
      resolve(new RPCLink({ port }));
    };
    window.addEventListener('message', take);
    // The preload script runs first and may hold the port already: it hands it over when it hears this.
    window.postMessage('playworn:ready', window.origin === 'null' ? '*' : window.origin);
  });
