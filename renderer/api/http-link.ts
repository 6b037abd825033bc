import { RPCLink } from '@orpc/client/fetch';
import type { ApiLink } from './client.ts';

const storageKey = 'playworn-token';

/** The single-use code in an address such as `http://127.0.0.1:4100/#code=…`, or null. */
export const codeIn = (hash: string): string | null => /^#code=([\w-]+)$/.exec(hash)?.[1] ?? null;

/**
 * Exchanges the address's single-use code for a token, once, and erases it from the address and the history.
 */
const exchange = async (code: string): Promise<string> => {
  history.replaceState(null, '', location.pathname + location.search);
  const response = await fetch('/session', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ code }),
  });
  if (!response.ok) throw new Error(await response.text());
  const { token } = (await response.json()) as { token: string };
  sessionStorage.setItem(storageKey, token);
  return token;
};

/** Reaches the service over the loopback address; the token stays in this tab. */
export const httpLink = async (): Promise<ApiLink> => {
  const code = codeIn(location.hash);
  const token = code ? await exchange(code) : sessionStorage.getItem(storageKey);
  if (!token)
    throw new Error(
      'This page needs the address that Playworn prints where it runs, with its code. Press Enter there for a new one.',
    );
  return new RPCLink({ url: `${location.origin}/rpc`, headers: { 'x-playworn-token': token } });
};
