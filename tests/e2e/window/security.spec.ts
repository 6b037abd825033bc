/** Electron's security checklist, each item asserted in the real window. */
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { ElectronApplication, Page } from '@playwright/test';
import { expect, test } from '../fixtures.ts';
import { root } from '../hosts.ts';

const started = async (start: () => Promise<{ page: Page; app?: ElectronApplication }>) => {
  const { page, app } = await start();
  if (!app) throw new Error('These tests run in the window.');
  return { page, app };
};

test('the page is isolated and sandboxed, without Node and without webviews', async ({ start }) => {
  const { page, app } = await started(start);
  const preferences = await app.evaluate(({ BrowserWindow }) => {
    const [window] = BrowserWindow.getAllWindows();
    // The preferences as Chromium has them, not as they were asked for.
    const contents = window!.webContents as unknown as { getLastWebPreferences(): Record<string, unknown> };
    return contents.getLastWebPreferences();
  });
  expect(preferences).toMatchObject({
    contextIsolation: true,
    sandbox: true,
    nodeIntegration: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    webviewTag: false,
  });
  expect(preferences.allowRunningInsecureContent ?? false).toBe(false);
  expect(preferences.experimentalFeatures ?? false).toBe(false);
  const inPage = await page.evaluate(() => ({
    require: typeof Reflect.get(window, 'require'),
    process: typeof Reflect.get(window, 'process'),
    module: typeof Reflect.get(window, 'module'),
    buffer: typeof Reflect.get(window, 'Buffer'),
    // What a preload script exposes shows as a property of the window that no browser has.
    exposed: Object.keys(window).filter(name => /electron|playworn|ipc|bridge|api/i.test(name)),
  }));
  expect(inPage).toEqual({
    require: 'undefined',
    process: 'undefined',
    module: 'undefined',
    buffer: 'undefined',
    exposed: [],
  });
});

test('the screens come from their own scheme, which serves nothing else', async ({
  start,
  expectedComplaints,
}) => {
  expectedComplaints.push(/404/);
  const { page } = await started(start);
  expect(page.url()).toMatch(/^app:\/\/playworn\//);
  expect(await page.evaluate(() => window.isSecureContext)).toBe(true);
  const statuses = await page.evaluate(async () => {
    const paths = [
      '/index.html',
      '/nowhere.js',
      '/../package.json',
      '/%2e%2e/%2e%2e/package.json',
      '/..%2f..%2fpackage.json',
      '/assets/..%5c..%5c..%5cpackage.json',
      '//etc/passwd',
    ];
    const status = async (path: string) => (await fetch(`app://playworn${path}`)).status;
    return Promise.all(paths.map(async path => [path, await status(path)]));
  });
  for (const [path, status] of statuses)
    expect(status, String(path)).toBe(path === '/index.html' ? 200 : 404);
});

test('every document has a strict policy', async ({ start }) => {
  const { page } = await started(start);
  const headers = await page.evaluate(async () => {
    const answer = await fetch('/');
    return Object.fromEntries(answer.headers.entries());
  });
  const policy = headers['content-security-policy'] ?? '';
  expect(policy).toContain("default-src 'none'");
  expect(policy).toContain("script-src 'self';");
  expect(policy).not.toMatch(/unsafe|\*|https?:/);
  expect(headers['x-content-type-options']).toBe('nosniff');
});

test('what is no document has a policy too, under which nothing runs or is loaded', async ({
  start,
  expectedComplaints,
}) => {
  expectedComplaints.push(/404/);
  const { page } = await started(start);
  const answers = await page.evaluate(async () => {
    const icon = document.querySelector<HTMLLinkElement>('link[rel=icon]')?.href ?? '';
    const script = document.querySelector<HTMLScriptElement>('script[src]')?.src ?? '';
    const answer = async (address: string) => {
      const { status, headers } = await fetch(address);
      return {
        address,
        status,
        type: headers.get('content-type'),
        policy: headers.get('content-security-policy'),
      };
    };
    return Promise.all([icon, script, '/nowhere.html'].map(answer));
  });
  expect(answers.map(({ status }) => status)).toEqual([200, 200, 404]);
  expect(answers[0]?.type).toBe('image/svg+xml');
  for (const { address, policy } of answers) {
    expect(policy, address).toContain("default-src 'none'");
    expect(policy, address).toMatch(/; sandbox$/);
  }
});

test('no data channel finds a way out', async ({ start }) => {
  const { page } = await started(start);
  const first = await page.evaluate(async () => {
    const connection = new RTCPeerConnection();
    connection.createDataChannel('out');
    const found = new Promise<string>(resolve => {
      connection.onicecandidate = ({ candidate }) => {
        if (candidate?.candidate) resolve(candidate.candidate);
      };
    });
    await connection.setLocalDescription(await connection.createOffer());
    // Where there are ways, they are found at once.
    return Promise.race([found, new Promise(resolve => setTimeout(() => resolve('none'), 2000))]);
  });
  expect(first).toBe('none');
});

test('the policy is in force', async ({ start, expectedComplaints }) => {
  expectedComplaints.push(/Content Security Policy/, /Refused to/, /Failed to fetch/, /ERR_/);
  const { page } = await started(start);
  const outcome = await page.evaluate(async () => {
    const marked = window as Window & { inlineRan?: boolean };
    const inline = document.createElement('script');
    inline.textContent = 'window.inlineRan = true';
    document.head.append(inline);
    const style = document.createElement('style');
    style.textContent = 'body { outline: 7px solid red }';
    document.head.append(style);
    // Called by the page itself: what is evaluated from outside may evaluate.
    const evaluated = await new Promise(resolve =>
      setTimeout(() => {
        try {
          resolve(new Function('return 1')());
        } catch {
          resolve('refused');
        }
      }),
    );
    const reached = await fetch('https://example.com/').then(
      () => 'reached',
      () => 'refused',
    );
    return {
      inlineRan: marked.inlineRan ?? false,
      styled: getComputedStyle(document.body).outlineWidth === '7px',
      evaluated,
      reached,
    };
  });
  expect(outcome).toEqual({ inlineRan: false, styled: false, evaluated: 'refused', reached: 'refused' });
});

test('the session loads no file and reaches no server', async ({ start, expectedComplaints }) => {
  expectedComplaints.push(/Content Security Policy|Refused to|ERR_|Failed to fetch/);
  const requests: string[] = [];
  const server = createServer((request, response) => {
    requests.push(request.url ?? '');
    response.end('reached');
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const { app, page } = await started(start);
  const shown = await app.evaluate(
    async ({ BrowserWindow }, addresses) => {
      const texts: string[] = [];
      for (const to of addresses) {
        const other = new BrowserWindow({ show: false });
        await other.webContents.loadURL(to).catch(() => undefined);
        texts.push(await other.webContents.executeJavaScript('document.body.innerText'));
        other.destroy();
      }
      return texts;
    },
    [pathToFileURL(join(root, 'package.json')).href, `${address}/window`],
  );
  await page.evaluate(async to => {
    await fetch(`${to}/fetch`, { mode: 'no-cors' }).catch(() => undefined);
    navigator.sendBeacon(`${to}/beacon`, 'x');
    new Image().src = `${to}/image`;
    await new Promise(resolve => setTimeout(resolve, 300));
  }, address);
  server.close();
  expect(shown.join()).not.toMatch(/playworn|reached/);
  expect(requests).toEqual([]);
});

test('every permission is denied', async ({ start, expectedComplaints }) => {
  expectedComplaints.push(/permission|denied/i);
  const { page } = await started(start);
  const answers = await page.evaluate(async () => {
    const names = ['geolocation', 'notifications', 'camera', 'microphone', 'clipboard-read', 'midi'];
    const states = await Promise.all(
      names.map(name =>
        navigator.permissions.query({ name: name as PermissionName }).then(
          ({ state }) => state,
          () => 'denied',
        ),
      ),
    );
    const asked = (promise: Promise<unknown>) =>
      promise.then(
        () => 'granted',
        () => 'denied',
      );
    return [
      ...states,
      await Notification.requestPermission(),
      await asked(navigator.mediaDevices.getUserMedia({ video: true, audio: true })),
      await asked(navigator.clipboard.readText()),
      await asked(
        new Promise((resolve, reject) => navigator.geolocation.getCurrentPosition(resolve, reject)),
      ),
    ];
  });
  expect(answers.filter(answer => answer !== 'denied')).toEqual([]);
});

test('the page stays where it is, opens no window and no webview', async ({ start, expectedComplaints }) => {
  expectedComplaints.push(/Content Security Policy|Refused to|Not allowed to/);
  const { page, app } = await started(start);
  await app.evaluate(({ shell }) => {
    const opened: string[] = [];
    Reflect.set(globalThis, 'openedOutside', opened);
    shell.openExternal = async url => {
      opened.push(url);
    };
  });
  const before = page.url();
  await page.evaluate(() => Reflect.set(window, 'isTheSame', true));
  const opened = await page.evaluate(() => {
    const addresses = [
      'https://example.com/help',
      'http://example.com/',
      'file:///etc/passwd',
      'javascript:1',
      'app://playworn/',
    ];
    return addresses.map(address => window.open(address) === null);
  });
  expect(opened).toEqual([true, true, true, true, true]);
  for (const address of [
    'https://example.com/',
    'http://example.com/',
    'app://elsewhere/',
    'file:///etc/passwd',
    'about:blank',
  ])
    await page.evaluate(to => {
      location.href = to;
    }, address);
  await page.evaluate(() => document.body.append(document.createElement('webview')));
  await page.waitForTimeout(500);
  expect(page.url()).toBe(before);
  // Not only the address: the document was never left.
  expect(await page.evaluate(() => Reflect.get(window, 'isTheSame'))).toBe(true);
  const after = await app.evaluate(({ BrowserWindow, webContents }) => ({
    windows: BrowserWindow.getAllWindows().length,
    webviews: webContents.getAllWebContents().filter(contents => contents.getType() === 'webview').length,
    outside: Reflect.get(globalThis, 'openedOutside'),
  }));
  // Only what is https goes to the system's browser.
  expect(after).toEqual({ windows: 1, webviews: 0, outside: ['https://example.com/help'] });
});

test('a page that got to about:blank is brought back to the screens', async ({ start }) => {
  const { page, app } = await started(start);
  await expect(page.getByRole('heading').first()).toBeVisible();
  await page.evaluate(() => Reflect.set(window, 'isTheSame', true));
  await app.evaluate(async ({ BrowserWindow }) => {
    // Bringing the screens back breaks this off.
    await BrowserWindow.getAllWindows()[0]
      ?.webContents.loadURL('about:blank')
      .catch(() => undefined);
  });
  await expect.poll(() => page.url()).toMatch(/^app:\/\/playworn\//);
  await expect(page.getByRole('heading').first()).toBeVisible();
  expect(await page.evaluate(() => Reflect.get(window, 'isTheSame'))).toBeUndefined();
});

test('only the window showing the screens is handed ports', async ({ start }) => {
  const { app } = await started(start);
  const answers = await app.evaluate(async ({ BrowserWindow, app: electronApp }) => {
    const preload = `${electronApp.getAppPath()}/dist/electron/preload.cjs`;
    const ask = `new Promise(resolve => {
      addEventListener('message', event => { if (event.data === 'playworn:port') resolve('ports: ' + event.ports.length) });
      postMessage('playworn:ready', '*');
      setTimeout(() => resolve('nothing'), 1500);
    })`;
    const answerOf = async (address: string, script: string) => {
      const stranger = new BrowserWindow({ show: false, webPreferences: { preload, sandbox: true } });
      await stranger.loadURL(address);
      const answer = await stranger.webContents.executeJavaScript(script);
      stranger.destroy();
      return answer as string;
    };
    // Another window, even one that shows our own screens, and one that shows something else.
    return [await answerOf('data:text/html,<p>stranger</p>', ask), await answerOf('app://playworn/', ask)];
  });
  expect(answers).toEqual(['nothing', 'nothing']);
  const own = await app.evaluate(({ BrowserWindow }) => {
    const [window] = BrowserWindow.getAllWindows();
    return window!.webContents.executeJavaScript(`new Promise(resolve => {
      addEventListener('message', event => { if (event.data === 'playworn:port') resolve('ports: ' + event.ports.length) });
      postMessage('playworn:ready', location.origin);
      setTimeout(() => resolve('nothing'), 5000);
    })`);
  });
  expect(own).toBe('ports: 2');
});
