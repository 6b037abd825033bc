import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { outliveReaders } from '../cli/outlive-readers.ts';
import { printableLines } from '../cli/printable.ts';
import { leftUndone } from '../service/messages.ts';
import { asUsual } from '../service/private-files.ts';
import { buildStale, type Product } from './build.ts';
import { windowObstacle } from './choose-host.ts';
import { findElectron } from './find-electron.ts';

const usage = `npm start -- [--demo] [--collection DIR] [--browser] [--no-open]

  --demo             open the demo collection, making it where it is not there yet
  --collection DIR   open the collection in this folder
  --browser          serve the screens to the browser, window or not
  --no-open          do not open the browser; only print the address
  --port N           serve on this port; without it, on any that is free
  --sources          serve the browser from the TypeScript sources, not from what was built of them
  --no-sandbox       run the window without Chromium's sandbox, as root must`;

outliveReaders();
const say = (sentence: string) => console.log(printableLines(sentence));

const readArguments = () => {
  try {
    return parseArgs({
      options: {
        demo: { type: 'boolean', default: false },
        collection: { type: 'string' },
        browser: { type: 'boolean', default: false },
        'no-open': { type: 'boolean', default: false },
        port: { type: 'string', default: '0' },
        sources: { type: 'boolean', default: false },
        'no-sandbox': { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    }).values;
  } catch (error) {
    console.error(`${error instanceof Error ? error.message : String(error)}\n\n${usage}`);
    process.exit(2);
  }
};

const root = fileURLToPath(new URL('../..', import.meta.url));
const built = (product: Product) => join(root, 'dist', product);

type BrowserBundle = typeof import('./serve-browser.ts');

/**
 * What serves the browser and makes the demo, from its bundle: reading the TypeScript sources takes half of a
 * start. Traces of faults name the sources.
 */
const browserBundle = (): BrowserBundle => {
  process.setSourceMapsEnabled(true);
  return createRequire(import.meta.url)(join(built('electron'), 'browser.cjs'));
};

const runWindow = (electron: string, args: string[]): Promise<number> =>
  new Promise(done => {
    const child = asUsual(() => spawn(electron, [root, ...args], { stdio: 'inherit' }));
    // A terminal interrupts both processes at once, and Electron takes a second interrupt for a kill.
    process.on('SIGINT', () => process.stdin.isTTY || child.kill('SIGINT'));
    process.on('SIGTERM', () => child.kill('SIGTERM'));
    child.on('error', error => {
      console.error(`Electron could not be started: ${error.message}`);
      done(1);
    });
    child.on('exit', (code, signal) => {
      if (code !== 0 && code !== leftUndone && signal === null)
        console.error(
          'Electron ended with an error. The same screens can be had with: npm start -- --browser',
        );
      done(code === leftUndone ? 1 : (code ?? 1));
    });
  });

const start = async (): Promise<number> => {
  const given = readArguments();
  if (given.help) {
    say(usage);
    return 0;
  }
  const { demo } = given;
  // npm runs scripts in the checkout, and names the folder it was called from.
  const collection = given.collection && resolve(process.env.INIT_CWD ?? '.', given.collection);
  const port = Number(given.port);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    console.error(`${given.port} is not a port.\n\n${usage}`);
    return 2;
  }
  if (!given.browser) {
    const obstacle = windowObstacle({
      platform: process.platform,
      env: process.env,
      isRoot: process.getuid?.() === 0,
      noSandbox: given['no-sandbox'],
    });
    const electron = obstacle ? null : await findElectron(process.env, say);
    if (electron && 'path' in electron) {
      await buildStale(['renderer', 'electron'], say);
      if (demo) await browserBundle().makeDemo({ demo, collection, bundle: built('electron') }, say);
      const args = [
        ...(given['no-sandbox'] ? ['--no-sandbox'] : []),
        ...(demo ? ['--demo'] : []),
        ...(collection ? [`--collection=${collection}`] : []),
      ];
      return runWindow(electron.path, args);
    }
    say(obstacle ?? `Electron cannot be had here: ${electron?.missing}.`);
    say('Serving the same screens to the browser instead.');
  }
  await buildStale(given.sources ? ['renderer'] : ['renderer', 'electron'], say);
  const { serveBrowser } = given.sources ? await import('./serve-browser.ts') : browserBundle();
  return serveBrowser(
    { demo, collection, ...(!given.sources && { bundle: built('electron') }) },
    { screens: built('renderer'), open: !given['no-open'], port, say },
  );
};

process.exit(await start());
