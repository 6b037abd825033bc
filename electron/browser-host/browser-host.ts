import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { text } from 'node:stream/consumers';
import { RPCHandler } from '@orpc/server/node';
import { router } from '../api/router.ts';
import type { Session } from '../api/session/session.ts';
import { everyAnswerHeaders } from '../boundary/policy.ts';
import { screenFile } from '../boundary/screen-files.ts';
import { type Access, createAccess, type Exchange } from './access.ts';
import { refusalOf } from './guard.ts';

export interface BrowserHost {
  /** `http://127.0.0.1:PORT`, without a code. */
  origin: string;
  /**
   * An address to open once, within so many milliseconds; its code is in the fragment, which no browser sends
   * or logs. Without a lifetime it has a quarter of an hour.
   */
  newAddress(lifetime?: number): string;
  close(): Promise<void>;
}

/** What became of somebody who came with an address. */
export type Entry = 'entered' | 'used' | 'too old';

interface Options {
  session: Session;
  /** Folder of the built screens. */
  screens: string;
  /** Zero for any free port. */
  port?: number;
  /**
   * Hears of everybody who came with an address of this host's, and once for each address that lets
   * nobody in any more.
   */
  onEntry?: (outcome: Entry) => void;
  /**
   * Milliseconds that a code may take to arrive: it comes in one piece, and whoever sends it
   * slower holds the line.
   */
  bodyTime?: number;
}

const codeLifetime = 15 * 60_000;

const answer = (
  response: ServerResponse,
  status: number,
  body: string | Uint8Array,
  headers: Record<string, string> = {},
) => {
  // What is left of a refused body is not waited for.
  if (status >= 400) response.setHeader('connection', 'close');
  response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8', ...headers }).end(body);
};

/** What to tell somebody whose address lets them in no more; the screens show it as it is. */
const staleSentences = {
  used: 'This address has been used already. If it was not you who opened it, close Playworn. Where Playworn runs, it has printed a new one.',
  'too old': 'This address is too old. Where Playworn runs, it has printed a new one.',
  unknown: 'This address is not of the Playworn that is running now. Open the one that it printed.',
};

/** The text of a request's body, or null where it does not come in time. */
const timelyText = async (request: IncomingMessage, milliseconds: number): Promise<string | null> => {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<null>(resolve => {
    timer = setTimeout(() => resolve(null), milliseconds);
  });
  try {
    return await Promise.race([text(request), late]);
  } catch {
    // Whoever sent it has hung up.
    return null;
  } finally {
    clearTimeout(timer);
  }
};

interface Door {
  access: Access;
  bodyTime: number;
  onEntry(code: string, outcome: Entry): void;
}

const exchangeCode = async (door: Door, request: IncomingMessage, response: ServerResponse) => {
  if (Number(request.headers['content-length']) > 1000) return answer(response, 413, 'That is not the code.');
  const body = await timelyText(request, door.bodyTime);
  if (body === null) return answer(response, 408, 'That took too long.');
  let code: unknown;
  try {
    code = JSON.parse(body).code;
  } catch {
    return answer(response, 400, 'That is not the code.');
  }
  const exchange: Exchange = typeof code === 'string' ? door.access.exchange(code) : { refused: 'unknown' };
  if ('refused' in exchange) {
    const { refused } = exchange;
    if (refused !== 'unknown') door.onEntry(String(code), refused);
    return answer(response, 401, staleSentences[refused]);
  }
  door.onEntry(String(code), 'entered');
  answer(response, 200, JSON.stringify(exchange), {
    'content-type': 'application/json',
    'cache-control': 'no-store',
  });
};

/** Serves the screens and their API to a browser on this machine, and to nothing else. */
export const startBrowserHost = async ({
  session,
  screens,
  port = 0,
  onEntry = () => undefined,
  bodyTime = 5_000,
}: Options): Promise<BrowserHost> => {
  const access = createAccess(() => performance.now());
  const told = new Set<string>();
  const door: Door = {
    access,
    bodyTime,
    onEntry(code, outcome) {
      if (outcome !== 'entered' && told.has(code)) return;
      if (outcome !== 'entered') told.add(code);
      onEntry(outcome);
    },
  };
  const handler = new RPCHandler(router);
  let authority = '';

  const serve = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    for (const [name, value] of Object.entries(everyAnswerHeaders)) response.setHeader(name, value);
    const refusal = refusalOf(request, authority);
    if (refusal) return answer(response, refusal.status, refusal.sentence);
    const path = (request.url ?? '').split('?', 1)[0] ?? '';
    if (request.method === 'POST') {
      if (path === '/session') return exchangeCode(door, request, response);
      if (!path.startsWith('/rpc/')) return answer(response, 404, 'There is nothing here.');
      const given = request.headers['x-playworn-token'];
      if (!access.isToken(Array.isArray(given) ? undefined : given))
        return answer(response, 401, 'Open the address that Playworn printed.');
      response.setHeader('cache-control', 'no-store');
      const { matched } = await handler.handle(request, response, { prefix: '/rpc', context: { session } });
      if (!matched) answer(response, 404, 'There is nothing here.');
      return;
    }
    const file = await screenFile(screens, path, randomBytes(16).toString('base64'));
    if (!file) return answer(response, 404, 'There is nothing here.');
    answer(response, 200, request.method === 'HEAD' ? '' : file.body, file.headers);
  };

  const server = createServer(
    // A sender has ten seconds for the head of a request and five minutes for all of it.
    {
      headersTimeout: 10_000,
      requestTimeout: 300_000,
      // How often both are looked at; at Node's own half minute, ten seconds would mean up to forty.
      connectionsCheckingInterval: 5_000,
      keepAliveTimeout: 5_000,
      maxHeaderSize: 16_384,
    },
    (request, response) => {
      serve(request, response).catch((error: unknown) => {
        console.error(error);
        if (!response.headersSent) answer(response, 500, 'Playworn itself failed here.');
        else response.destroy();
      });
    },
  );
  server.maxConnections = 64;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject).listen(port, '127.0.0.1', resolve);
  });
  authority = `127.0.0.1:${(server.address() as AddressInfo).port}`;
  const origin = `http://${authority}`;
  return {
    origin,
    newAddress: (lifetime = codeLifetime) => `${origin}/#code=${access.newCode(lifetime)}`,
    close: () =>
      new Promise(resolve => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
};
