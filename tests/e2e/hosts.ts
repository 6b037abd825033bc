/** Starts Playworn as its users do, in either host, on a collection folder of the test's own. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import {
  _electron,
  type BrowserContext,
  type ElectronApplication,
  errors,
  type Page,
} from '@playwright/test';

type LaunchOptions = NonNullable<Parameters<typeof _electron.launch>[0]>;

export const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Started {
  page: Page;
  /** The address that was printed, where it is the browser. */
  address?: string;
  /** The app, where it is the window. */
  app?: ElectronApplication;
  /** Ends the host as its user would, and waits until the collection is closed. */
  close(): Promise<void>;
}

export interface StartOptions {
  /** Folder that stands in for the user's home, so that nothing of a real one is read or written. */
  home: string;
  collection: string;
  demo?: boolean;
  env?: Record<string, string>;
  /** Sees the page as early as can be: in a browser before it loads, in the window once there is one. */
  onPage?(page: Page): void;
}

/**
 * A slow service, for finding what only a slow machine shows: with `PLAYWORN_E2E_SLOW=7` each answer of the
 * browser's host comes 300 to 2,000 ms late, drawn from seed 7.
 */
export const slowSeed = process.env.PLAYWORN_E2E_SLOW;

/**
 * A slow page, likewise: with `PLAYWORN_E2E_THROTTLE=6` Chromium gives the page a sixth of the processor.
 */
const throttle = Number(process.env.PLAYWORN_E2E_THROTTLE ?? 1);

const slowly = (env: Record<string, string> = {}): Record<string, string> => {
  if (!slowSeed) return env;
  const hook = pathToFileURL(join(root, 'tests/helpers/hooks/slow-hook.mjs')).href;
  return { ...env, TEST_SLOW: slowSeed, NODE_OPTIONS: `${env.NODE_OPTIONS ?? ''} --import=${hook}` };
};

const environment = ({ home, env }: StartOptions): Record<string, string> => {
  const kept = Object.entries(process.env).filter(
    (entry): entry is [string, string] => entry[1] !== undefined,
  );
  return {
    ...Object.fromEntries(kept),
    HOME: home,
    XDG_CONFIG_HOME: join(home, '.config'),
    INIT_CWD: root,
    ...slowly(env),
  };
};

const exited = (child: ChildProcess): Promise<void> =>
  child.exitCode !== null || child.signalCode !== null
    ? Promise.resolve()
    : new Promise(resolve => child.once('exit', () => resolve()));

/** Runs the launcher until it prints its address. */
export const serve = (options: StartOptions): Promise<{ address: string; child: ChildProcess }> =>
  new Promise((resolve, reject) => {
    const args = [
      'electron/launcher/begin.mjs',
      '--browser',
      '--no-open',
      '--collection',
      options.collection,
    ];
    const child = spawn(process.execPath, [...args, ...(options.demo ? ['--demo'] : [])], {
      cwd: root,
      env: environment(options),
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let said = '';
    const read = (chunk: Buffer) => {
      said += chunk;
      const address = /http:\/\/127\.0\.0\.1:\d+\/#code=\S+/.exec(said)?.[0];
      if (address) resolve({ address, child });
    };
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    child.on('exit', code => reject(new Error(`The launcher ended with ${code}:\n${said}`)));
  });

export const startBrowser = async (
  context: BrowserContext,
  options: StartOptions,
): Promise<Started & { address: string }> => {
  const { address, child } = await serve(options);
  const page = await context.newPage();
  options.onPage?.(page);
  if (throttle > 1) {
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: throttle });
  }
  await page.goto(address);
  return {
    page,
    address,
    close: async () => {
      await page.close();
      child.kill('SIGINT');
      await exited(child);
    },
  };
};

/** The Electron of the environment, else the one that npm installed. */
export const electronProgram = (): string =>
  join(process.env.ELECTRON_OVERRIDE_DIST_PATH ?? join(root, 'node_modules/electron/dist'), 'electron');

/**
 * Switches of Chromium's for a machine that tests. As root there is no sandbox to be had; and where there is
 * no graphics card, Chromium's attempts to use one now and then stop the whole app at its start.
 */
export const windowSwitches = (): string[] => [
  '--disable-gpu',
  ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
];

/**
 * An older Electron now and then stops at its start, before it runs a line of the app; it is then ended and
 * started again, and the log says so. What the app does once it runs is tried once.
 */
const launchElectron = async (options: LaunchOptions, starts = 3): Promise<ElectronApplication> => {
  try {
    return await _electron.launch({ ...options, timeout: 60_000 });
  } catch (error) {
    if (starts <= 1 || !(error instanceof errors.TimeoutError)) throw error;
    console.error('Electron stopped at its start; starting it again.');
    return launchElectron(options, starts - 1);
  }
};

/** As root Electron runs without its sandbox only, which the launcher never chooses by itself. */
export const startWindow = async (options: StartOptions): Promise<Started & { app: ElectronApplication }> => {
  const profile = join(options.home, 'profile');
  mkdirSync(profile, { recursive: true });
  const app = await launchElectron({
    executablePath: electronProgram(),
    cwd: root,
    args: [
      ...windowSwitches(),
      `--user-data-dir=${profile}`,
      root,
      `--collection=${options.collection}`,
      ...(options.demo ? ['--demo'] : []),
    ],
    env: environment(options),
  });
  const child = app.process();
  const page = await app.firstWindow();
  options.onPage?.(page);
  return {
    page,
    app,
    close: async () => {
      await app.close().catch(() => undefined);
      await exited(child);
    },
  };
};
