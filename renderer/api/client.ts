import { type ClientLink, createORPCClient } from '@orpc/client';
import type { RouterClient } from '@orpc/server';
import type { AppRouter } from '../../electron/api/router.ts';
import { orUnreadable } from './unreadable-file.ts';

type NoContext = Record<never, never>;
export type Api = RouterClient<AppRouter, NoContext>;
export type ApiLink = ClientLink<NoContext>;

let settle: { resolve: (link: ApiLink) => void; reject: (reason: unknown) => void };
const connected = new Promise<ApiLink>((resolve, reject) => {
  settle = { resolve, reject };
});
// A refused connection is shown by the first call that waits for it.
connected.catch(() => undefined);

/** Hands over the link that all calls wait for, or the reason why there is none. */
export const connectApi = (link: Promise<ApiLink>): void => {
  link.then(settle.resolve, settle.reject);
};

/**
 * The service's procedures, by subject: `await api.lots.list()`. Calls made before it is reached wait for it.
 */
export const api: Api = createORPCClient<Api>({
  call: async (path, input, options) => {
    try {
      return await (await connected).call(path, input, options);
    } catch (error) {
      throw await orUnreadable(error, input);
    }
  },
} satisfies ApiLink);
