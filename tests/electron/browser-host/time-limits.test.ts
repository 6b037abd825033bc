import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import type { ServerOptions } from 'node:http';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { createSession, type Session } from '../../../electron/api/session/session.ts';
import { type BrowserHost, startBrowserHost } from '../../../electron/browser-host/browser-host.ts';

/** The host's own limits, kept by a clock that runs a hundred times as fast. */
const haste = 100;
const limits: ServerOptions[] = [];
vi.mock('node:http', async original => {
  const http = await original<typeof import('node:http')>();
  return {
    ...http,
    createServer: (options: ServerOptions, listener: Parameters<typeof http.createServer>[1]) => {
      limits.push(options);
      const sooner = (milliseconds = Number.NaN) => milliseconds / haste;
      return http.createServer(
        {
          ...options,
          headersTimeout: sooner(options.headersTimeout),
          requestTimeout: sooner(options.requestTimeout),
          connectionsCheckingInterval: sooner(options.connectionsCheckingInterval),
        },
        listener,
      );
    },
  };
});

let folder: string;
let session: Session;
let host: BrowserHost;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'time-limits-'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><html><head></head><body></body></html>');
  session = createSession({
    host: 'browser',
    now: () => new Date('2026-03-14T09:00:00Z'),
    defaultDir: join(folder, 'collection'),
    demoDir: join(folder, 'demo'),
    version: '0.0.0',
  });
  host = await startBrowserHost({ session, screens: folder });
});
afterAll(async () => {
  await host.close();
  await session.close();
  rmSync(folder, { recursive: true });
});

/** Sends the beginning of a request, and waits for the host to hang up. */
const sendBeginning = (head: string): Promise<{ heard: string; milliseconds: number }> =>
  new Promise(resolve => {
    const begun = performance.now();
    let heard = '';
    const socket = connect(Number(new URL(host.origin).port), '127.0.0.1', () => socket.write(head));
    socket.on('data', chunk => {
      heard += chunk;
    });
    socket.on('error', () => undefined);
    socket.on('close', () => resolve({ heard, milliseconds: performance.now() - begun }));
  });

const authority = () => new URL(host.origin).host;

it('gives a sender seconds for the head of a request, and minutes for all of it', () => {
  expect(limits).toHaveLength(1);
  const { headersTimeout = 0, requestTimeout = 0, connectionsCheckingInterval = 30_000 } = limits[0] ?? {};
  expect(headersTimeout).toBeGreaterThan(0);
  expect(headersTimeout + connectionsCheckingInterval).toBeLessThanOrEqual(30_000);
  expect(requestTimeout).toBeGreaterThan(headersTimeout);
  expect(requestTimeout).toBeLessThanOrEqual(600_000);
});

it('hangs up on a head that never ends', async () => {
  const { heard, milliseconds } = await sendBeginning(`GET / HTTP/1.1\r\nHost: ${authority()}\r\nX-Slow: `);
  expect(heard).toContain('408 Request Timeout');
  expect(heard).not.toContain('200 OK');
  expect(milliseconds).toBeGreaterThan(50);
});

it('hangs up on a body that never comes', async () => {
  const head = [
    'POST /session HTTP/1.1',
    `Host: ${authority()}`,
    `Origin: ${host.origin}`,
    'Content-Type: application/json',
    'Content-Length: 60',
    '',
    '{"code":',
  ];
  const { heard, milliseconds } = await sendBeginning(head.join('\r\n'));
  expect(heard).not.toContain('200 OK');
  // Longer than the head alone would have had, so it is the whole request that ran out of time.
  expect(milliseconds).toBeGreaterThan(1000);
});

it('answers whoever is in time after that', async () => {
  const { heard } = await sendBeginning(
    `GET / HTTP/1.1\r\nHost: ${authority()}\r\nConnection: close\r\n\r\n`,
  );
  expect(heard).toContain('200 OK');
});
