import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from '@playwright/test';
import react from '@vitejs/plugin-react';
import { build } from 'vite';
import { contentSecurityPolicy } from '../../../electron/boundary/policy.ts';

const types: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml',
};
const nonce = 'gallery';

/** The Chromium to drive, or null where this machine has none. */
export const chromiumPath = (): string | null =>
  [
    process.env.PLAYWORN_CHROMIUM,
    chromium.executablePath(),
    '/usr/bin/chromium',
    '/usr/bin/google-chrome',
  ].find(path => path !== undefined && existsSync(path)) ?? null;

export interface Gallery {
  page: (scheme: 'light' | 'dark', query: string) => Promise<Page>;
  /** What the pages complained of in their consoles, policy violations included. */
  complaints: string[];
  close: () => Promise<void>;
}

/** Builds the gallery as the screens are built, and serves it under the very policy that the hosts set. */
export const openGallery = async (executablePath: string): Promise<Gallery> => {
  const outDir = await mkdtemp(join(tmpdir(), 'playworn-gallery-'));
  await build({
    configFile: false,
    root: fileURLToPath(new URL('.', import.meta.url)),
    base: './',
    plugins: [react()],
    logLevel: 'error',
    build: {
      outDir,
      emptyOutDir: true,
      target: 'chrome114',
      assetsInlineLimit: 0,
      modulePreload: { polyfill: false },
    },
  });
  const server = createServer(async (request, response) => {
    const path = new URL(request.url ?? '/', 'http://gallery').pathname;
    const file = join(outDir, path === '/' ? 'index.html' : path);
    if (!existsSync(file)) {
      response.writeHead(path === '/favicon.ico' ? 204 : 404).end();
      return;
    }
    const body = await readFile(file);
    response.writeHead(200, {
      'content-type': types[extname(file)] ?? 'application/octet-stream',
      'content-security-policy': contentSecurityPolicy(nonce),
    });
    response.end(
      path === '/'
        ? body.toString().replace('<head>', `<head><meta name="style-nonce" content="${nonce}">`)
        : body,
    );
  });
  await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const browser: Browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  const complaints: string[] = [];
  return {
    complaints,
    page: async (colorScheme, query) => {
      const context = await browser.newContext({
        viewport: { width: 1440, height: 900 },
        colorScheme,
        locale: 'en-US',
      });
      const page = await context.newPage();
      page.setDefaultTimeout(180_000);
      page.on('console', message => {
        if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
      });
      page.on('pageerror', error => complaints.push(error.message));
      await page.goto(`http://127.0.0.1:${port}/${query}`);
      await page.locator('h1').waitFor();
      return page;
    },
    close: async () => {
      await browser.close();
      await new Promise(resolve => server.close(resolve));
      await rm(outDir, { recursive: true, force: true });
    },
  };
};
