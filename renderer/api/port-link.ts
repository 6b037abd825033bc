import { createORPCClient } from '@orpc/client';
import { RPCLink } from '@orpc/client/message-port';
import type { RouterClient } from '@orpc/server';
import type { portChannel, readyMessage } from '../../electron/api/channels.ts';
import type { Shell } from '../../electron/api/shell.ts';
import type { ApiLink } from './client.ts';

export type ShellApi = RouterClient<Shell, Record<never, never>>;

// The page takes no code from beneath it; the compiler holds these to the words that the preload
// script listens for.
const announcement: typeof portChannel = 'playworn:port';
const ready: typeof readyMessage = 'playworn:ready';

/** Waits for the ports that the preload script hands to this very window, and for no other message. */
export const portLinks = (): Promise<{ service: ApiLink; shell: ShellApi | null }> =>
  new Promise(resolve => {
    const take = (event: MessageEvent) => {
      const [service, shell] = event.ports;
      if (event.source !== window || event.data !== announcement || !service) return;
      window.removeEventListener('message', take);
      resolve({
        service: new RPCLink({ port: service }),
        shell: shell ? createORPCClient<ShellApi>(new RPCLink({ port: shell })) : null,
      });
      service.start();
      shell?.start();
    };
    window.addEventListener('message', take);
    // The preload script runs first and fetches the ports when it hears this.
    window.postMessage(ready, window.location.origin);
  });
