import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { text } from 'node:stream/consumers';
import { RPCHandler } from '@orpc/server/node';
import { router } from '../api/router.ts';
import type { Session } from '../api/session/session.ts';
import { everyAnswerHeaders } from '../boundary/policy.ts';
import { screenFile } from '../boundary/screen-files.ts';
import { type Access, createAccess } from './access.ts';
import { refusalOf } from './guard.ts';

export interface BrowserHost {
  /** `http://127.0.0.1:PORT`, without a code. */
  origin: string;
  /** An address to open once; its code is in the fragment, which no browser sends or logs. */
  newAddress(): string;
  close(): Promise<void>;
}

interface Options {
  session: Session;
  /** Folder of the built screens. */
  screens: string;
  /** Zero for any free port. */
  port?: number;
}

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

const exchangeCode = async (access: Access, request: IncomingMessage, response: ServerResponse) => {
  if (Number(request.headers['content-length']) > 1000) return answer(response, 413, 'That is no code.');
  let code: unknown;
  try {
    code = JSON.parse(await text(request)).code;
  } catch {
    return answer(response, 400, 'That is no code.');
  }
  const token = typeof code === 'string' ? access.exchange(code) : null;
  if (!token) return answer(response, 401, 'This address has been used already, or is too old.');
  answer(response, 200, JSON.stringify({ token }), {
    'content-type': 'application/json',
    'cache-control': 'no-store',
  });
};

/** Serves the screens and their API to a browser on this machine, and to nothing else. */
export const startBrowserHost = async ({ session, screens, port = 0 }: Options): Promise<BrowserHost> => {
  const access = createAccess(() => performance.now());
  const handler = new RPCHandler(router);
  let authority = '';

  const serve = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    for (const [name, value] of Object.entries(everyAnswerHeaders)) response.setHeader(name, value);
    const refusal = refusalOf(request, authority);
    if (refusal) return answer(response, refusal.status, refusal.sentence);
    const path = (request.url ?? '').split('?', 1)[0] ?? '';
    if (request.method === 'POST') {
      if (path === '/session') return exchangeCode(access, request, response);
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
    newAddress: () => `${origin}/#code=${access.newCode()}`,
    close: () =>
      new Promise(resolve => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
};
