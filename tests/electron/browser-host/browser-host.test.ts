import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { type IncomingHttpHeaders, type OutgoingHttpHeaders, request } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { createORPCClient } from '@orpc/client';
import { RPCLink } from '@orpc/client/fetch';
import type { RouterClient } from '@orpc/server';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { AppRouter } from '../../../electron/api/router.ts';
import { createSession, type Session } from '../../../electron/api/session/session.ts';
import {
  type BrowserHost,
  type Entry,
  startBrowserHost,
} from '../../../electron/browser-host/browser-host.ts';

let folder: string;
let session: Session;
let host: BrowserHost;
let port: number;
const entries: Entry[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'browser-host-'));
  const screens = join(folder, 'screens');
  mkdirSync(join(screens, 'assets'), { recursive: true });
  writeFileSync(join(screens, 'index.html'), '<!doctype html><html><head></head><body></body></html>');
  writeFileSync(join(screens, 'assets', 'main.js'), 'export {};');
  writeFileSync(join(screens, 'mark.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  writeFileSync(join(screens, 'notes.txt'), 'not part of the screens');
  writeFileSync(join(folder, 'outside.js'), 'outside');
  symlinkSync(join(folder, 'outside.js'), join(screens, 'link.js'));
  session = createSession({
    host: 'browser',
    now: () => new Date('2026-03-14T09:00:00Z'),
    defaultDir: join(folder, 'collection'),
    demoDir: join(folder, 'demo'),
    version: '0.0.0',
  });
  host = await startBrowserHost({
    session,
    screens,
    onEntry: outcome => entries.push(outcome),
    bodyTime: 300,
  });
  port = Number(new URL(host.origin).port);
});

afterAll(async () => {
  await host.close();
  await session.close();
  rmSync(folder, { recursive: true });
});

interface Answer {
  status: number;
  headers: IncomingHttpHeaders;
  body: string;
}

/** Unlike fetch, sends exactly these headers and this path. */
const send = (
  method: string,
  path: string,
  headers: OutgoingHttpHeaders = {},
  body = '',
  address = '127.0.0.1',
): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const sent = request(
      { host: address, port, method, path, headers: { host: `127.0.0.1:${port}`, ...headers } },
      response => {
        let read = '';
        response.setEncoding('utf8').on('data', chunk => {
          read += chunk;
        });
        response.on('end', () =>
          resolve({ status: response.statusCode ?? 0, headers: response.headers, body: read }),
        );
      },
    );
    sent.on('error', reject).end(body);
  });

const json = { 'content-type': 'application/json' };
const postJson = (path: string, value: unknown, headers: OutgoingHttpHeaders = {}) => {
  const body = JSON.stringify(value);
  return send(
    'POST',
    path,
    { origin: host.origin, ...json, 'content-length': Buffer.byteLength(body), ...headers },
    body,
  );
};
const newCode = () => new URL(host.newAddress()).hash.replace('#code=', '');
const newToken = async (): Promise<string> =>
  JSON.parse((await postJson('/session', { code: newCode() })).body).token;

describe('where it listens', () => {
  it('answers on 127.0.0.1 alone, on a port of its own', async () => {
    expect(host.origin).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
    const others = Object.values(networkInterfaces())
      .flat()
      .filter(found => found && found.address !== '127.0.0.1' && !found.address.startsWith('fe80'));
    const addresses = ['127.0.0.2', ...others.map(found => found!.address)];
    for (const address of addresses)
      await expect(send('GET', '/', {}, '', address), address).rejects.toThrow();
  });
});

describe('Host', () => {
  const paths = ['/', '/assets/main.js', '/nowhere', '/rpc/collection/state', '/session'];
  it.each(paths)('must be the exact address on %s', async path => {
    const method = path.startsWith('/rpc') || path === '/session' ? 'POST' : 'GET';
    for (const name of [`localhost:${port}`, '127.0.0.1', `127.0.0.1:${port + 1}`, `evil.example:${port}`])
      expect((await send(method, path, { host: name, origin: host.origin })).status, name).toBe(421);
  });
});

describe('headers that a request is judged by', () => {
  it.each(['Host', 'Origin', 'Content-Type', 'X-Playworn-Token', 'Sec-Fetch-Site'])(
    'are refused when %s is there twice',
    async name => {
      const sent = [
        ['Host', `127.0.0.1:${port}`],
        ['Origin', host.origin],
        ['Content-Type', 'application/json'],
        ['X-Playworn-Token', await newToken()],
        ['Sec-Fetch-Site', 'same-origin'],
        ['Content-Length', '2'],
        ['Connection', 'close'],
      ];
      const answerTo = (lines: string[][]): Promise<string> =>
        new Promise((resolve, reject) => {
          let heard = '';
          const socket = connect(port, '127.0.0.1', () =>
            socket.write(
              `POST /rpc/collection/state HTTP/1.1\r\n${lines.map(line => line.join(': ')).join('\r\n')}\r\n\r\n{}`,
            ),
          );
          socket.on('data', chunk => {
            heard += chunk;
          });
          socket.on('error', reject).on('close', () => resolve(heard.slice(0, 12)));
        });
      expect(await answerTo(sent)).toBe('HTTP/1.1 200');
      const twice = sent.find(([sentName]) => sentName === name) as string[];
      expect(await answerTo([...sent, twice])).toBe('HTTP/1.1 400');
      expect(await answerTo([...sent, [name.toLowerCase(), 'evil.example']])).toBe('HTTP/1.1 400');
    },
  );
});

describe('Origin', () => {
  it('must be exact on every POST', async () => {
    const token = await newToken();
    for (const origin of [
      'http://evil.example',
      'null',
      `http://localhost:${port}`,
      'http://127.0.0.1',
      undefined,
    ])
      for (const path of ['/session', '/rpc/collection/state']) {
        const headers = {
          ...json,
          'content-length': 2,
          'x-playworn-token': token,
          ...(origin && { origin }),
        };
        const { status } = await send('POST', path, headers, '{}');
        expect(status, `${origin} ${path}`).toBe(403);
      }
  });
  it('is never answered with leave for another origin', async () => {
    const preflight = await send('OPTIONS', '/rpc/collection/state', {
      origin: 'http://evil.example',
      'access-control-request-method': 'POST',
      'access-control-request-headers': 'x-playworn-token',
    });
    expect(preflight.status).toBe(403);
    const own = await send('OPTIONS', '/rpc/collection/state', { origin: host.origin });
    expect(own.status).toBe(405);
    for (const answer of [preflight, own])
      expect(Object.keys(answer.headers).filter(name => name.startsWith('access-control'))).toEqual([]);
  });
  it('refuses what a browser marks as made by another site, but for a visit', async () => {
    const from = (headers: OutgoingHttpHeaders) =>
      send('GET', '/', { 'sec-fetch-site': 'cross-site', ...headers }).then(answer => answer.status);
    expect(await from({ 'sec-fetch-mode': 'no-cors', 'sec-fetch-dest': 'script' })).toBe(403);
    expect(await from({ 'sec-fetch-mode': 'navigate', 'sec-fetch-dest': 'iframe' })).toBe(403);
    expect(await from({ 'sec-fetch-mode': 'navigate', 'sec-fetch-dest': 'document' })).toBe(200);
    const post = await postJson('/session', { code: newCode() }, { 'sec-fetch-site': 'same-site' });
    expect(post.status).toBe(403);
  });
});

describe('the code and the token', () => {
  it('exchanges a code once', async () => {
    const code = newCode();
    const first = await postJson('/session', { code });
    expect(first.status).toBe(200);
    expect(first.headers['cache-control']).toBe('no-store');
    // 128 bits, in base64url.
    expect(JSON.parse(first.body).token).toMatch(/^[\w-]{22}$/);
    expect((await postJson('/session', { code })).status).toBe(401);
  });
  it('says of a code that lets nobody in any more what to do, and tells the host once', async () => {
    entries.length = 0;
    const code = newCode();
    await postJson('/session', { code });
    for (let i = 0; i < 3; i++) {
      const { status, body } = await postJson('/session', { code });
      expect(status).toBe(401);
      expect(body).toMatch(/used already.*close Playworn.*new one/);
    }
    const late = new URL(host.newAddress(-1)).hash.replace('#code=', '');
    expect((await postJson('/session', { code: late })).body).toMatch(/too old.*new one/);
    expect((await postJson('/session', { code: 'A'.repeat(22) })).body).not.toContain('new one');
    expect(entries).toEqual(['entered', 'used', 'too old']);
  });
  it('waits for a code only shortly', async () => {
    const head = [
      'POST /session HTTP/1.1',
      `Host: 127.0.0.1:${port}`,
      `Origin: ${host.origin}`,
      'Content-Type: application/json',
      'Content-Length: 60',
      '',
      '{"code":',
    ].join('\r\n');
    const heard = await new Promise<string>(resolve => {
      let said = '';
      const socket = connect(port, '127.0.0.1', () => socket.write(head));
      socket.on('data', chunk => {
        said += chunk;
      });
      // Resolves only when the host hangs up.
      socket.on('close', () => resolve(said));
    });
    expect(heard).toMatch(/^HTTP\/1\.1 408 /);
  });
  it('refuses a guess, and what is no code', async () => {
    newCode();
    expect((await postJson('/session', { code: 'A'.repeat(22) })).status).toBe(401);
    expect((await postJson('/session', { code: 7 })).status).toBe(401);
    expect((await postJson('/session', null)).status).toBe(400);
    expect((await postJson('/session', { code: 'x'.repeat(5000) })).status).toBe(413);
  });
  it('lets no call through without the token in its header', async () => {
    const token = await newToken();
    const call = (headers: OutgoingHttpHeaders, path = '/rpc/collection/state') =>
      postJson(path, {}, headers).then(answer => answer.status);
    expect(await call({})).toBe(401);
    expect(await call({ 'x-playworn-token': '' })).toBe(401);
    expect(await call({ 'x-playworn-token': `${token}x` })).toBe(401);
    expect(await call({ authorization: `Bearer ${token}`, cookie: `token=${token}` })).toBe(401);
    expect(await call({}, `/rpc/collection/state?x-playworn-token=${token}`)).toBe(401);
    expect(await call({ 'x-playworn-token': token })).toBe(200);
  });
  it('keeps the code in the fragment, and the token out of every address', async () => {
    const address = new URL(host.newAddress());
    expect(address.hash).toMatch(/^#code=[\w-]{22}$/);
    expect(address.pathname + address.search).toBe('/');
    expect(process.argv.join(' ')).not.toContain(await newToken());
  });
});

describe('bodies', () => {
  it('need a kind that is served, a length, and a length within bounds', async () => {
    const token = await newToken();
    const headers = { origin: host.origin, 'x-playworn-token': token };
    const post = (more: OutgoingHttpHeaders, body = '') =>
      send('POST', '/rpc/collection/state', { ...headers, ...more }, body).then(answer => answer.status);
    expect(await post({ 'content-type': 'text/plain', 'content-length': 2 }, '{}')).toBe(415);
    expect(
      await post({ 'content-type': 'application/x-www-form-urlencoded', 'content-length': 2 }, '{}'),
    ).toBe(415);
    expect(await post({ ...json, 'transfer-encoding': 'chunked' }, '{}')).toBe(411);
    expect(await post({ ...json, 'content-length': 65_000_000 })).toBe(413);
    const form = { 'content-type': 'multipart/form-data; boundary=x', 'content-length': 3_000_000_000 };
    expect(await post(form)).toBe(413);
  });
  it('of a form from another origin never reach the API', async () => {
    const body = '--x\r\ncontent-disposition: form-data; name="data"\r\n\r\n{}\r\n--x--\r\n';
    const headers = { 'content-type': 'multipart/form-data; boundary=x', 'content-length': body.length };
    const answer = await send(
      'POST',
      '/rpc/collection/create',
      { ...headers, origin: 'http://evil.example' },
      body,
    );
    expect(answer.status).toBe(403);
    expect(session.state().open).toBe(false);
  });
});

describe('the screens', () => {
  it('come under a strict policy whose nonce is new each time', async () => {
    const [first, second] = [await send('GET', '/'), await send('GET', '/')];
    const policy = first.headers['content-security-policy'] as string;
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe|\*|https?:/);
    const nonce = /'nonce-([^']+)'/.exec(policy)?.[1];
    expect(first.body).toContain(`<meta name="style-nonce" content="${nonce}" />`);
    expect(second.headers['content-security-policy']).not.toBe(policy);
  });
  it.each(['/assets/main.js', '/mark.svg', '/nowhere', '/rpc/collection/state'])(
    'let nothing run or load where %s is opened by itself',
    async path => {
      const { headers } = await send('GET', path);
      expect(headers['content-security-policy']).toMatch(/^default-src 'none'; .*; sandbox$/);
    },
  );
  it.each(['/', '/assets/main.js', '/nowhere', '/rpc/collection/state'])(
    'carry the headers on %s',
    async path => {
      const { headers } = await send('GET', path);
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['referrer-policy']).toBe('no-referrer');
      expect(headers['cross-origin-resource-policy']).toBe('same-origin');
    },
  );
  it('are all that is served', async () => {
    expect((await send('GET', '/assets/main.js')).body).toBe('export {};');
    const others = [
      '/../outside.js',
      '/%2e%2e/outside.js',
      '/..%2foutside.js',
      '/assets/..%5c..%5coutside.js',
      '/assets/../../outside.js',
      '//outside.js',
      '/link.js',
      '/notes.txt',
      '/assets',
      '/assets/',
      '/%00',
      '/%E0%A4%A',
      '/.env',
      'http://evil.example/',
    ];
    for (const path of others) expect((await send('GET', path)).status, path).toBe(404);
    for (const method of ['PUT', 'DELETE', 'PATCH', 'TRACE'])
      expect((await send(method, '/')).status, method).toBe(405);
  });
});

it('answers the API as the screens call it', async () => {
  const link = new RPCLink({
    url: `${host.origin}/rpc`,
    headers: { 'x-playworn-token': await newToken(), origin: host.origin },
  });
  const api: RouterClient<AppRouter> = createORPCClient(link);
  expect(await api.collection.state()).toMatchObject({ open: false, host: 'browser' });
  const made = await api.collection.create({ dir: join(folder, 'collection'), reportingCurrency: 'USD' });
  expect(made).toMatchObject({ open: true, dir: join(folder, 'collection') });
  await expect(api.collection.create({ dir: join(folder, 'collection') })).rejects.toThrow(/already/);
});
