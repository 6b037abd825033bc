/**
 * Time from starting the app until its window shows Home of the demo, against the time that an empty window
 * of the same Electron takes to show: at most one and a half times. Each is started again, in turn, and the
 * medians are compared; the first start of each, which fills the caches, does not count. Run: node
 * tests/bench/window.ts [runs]. Needs a display, and the Electron of ELECTRON_OVERRIDE_DIST_PATH or the
 * installed one.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildStale } from '../../electron/launcher/build.ts';
import { electronProgram, root } from '../e2e/hosts.ts';
import { copyDemo } from '../helpers/demo/demo-template.ts';
import { measured } from './measure.ts';

const runs = Number(process.argv[2] ?? 9);
const target = 1.5;
const patience = 60_000;
/**
 * The Node-API that the database's binary asks for; an older Electron has its service run by
 * this Node instead.
 */
const neededNodeApi = 10;

const isRoot = process.getuid?.() === 0;
/** Without one Chromium tries to use one several times over, and now and then gives up altogether. */
const noGraphicsCard = process.platform === 'linux' && !existsSync('/dev/dri');

interface Times {
  /** Milliseconds from the start of the process. */
  shown: number;
  filled: number;
  nodeApi: number;
  /** Thousandths of a percent of one processor while nothing is done; only where that was asked for. */
  idle: number;
}

/** For so long it must have been at rest, and is then watched. */
const idleFor = 10_000;

/** Starts an app with the hook, and reads its times until it has quit. */
const start = (args: string[], env: Record<string, string>): Promise<Times> =>
  new Promise((resolve, reject) => {
    const hook = fileURLToPath(new URL('window-hook.cjs', import.meta.url));
    const switches = [...(isRoot ? ['--no-sandbox'] : []), ...(noGraphicsCard ? ['--disable-gpu'] : [])];
    const began = Date.now();
    const child = spawn(electronProgram(), [...switches, '--require', hook, ...args], {
      env: { ...process.env, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let said = '';
    const read = (chunk: Buffer) => {
      said += chunk;
    };
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    const timer = setTimeout(() => child.kill('SIGKILL'), patience);
    child.on('error', reject);
    child.on('exit', code => {
      clearTimeout(timer);
      const value = (what: string) => Number(new RegExp(`^bench ${what} (\\d+)$`, 'm').exec(said)?.[1]);
      const times = {
        shown: value('shown') - began,
        filled: value('filled') - began,
        nodeApi: value('node-api'),
        idle: env.PLAYWORN_BENCH_IDLE ? value('idle') : 0,
      };
      if (Object.values(times).some(Number.isNaN))
        reject(new Error(`The window of ${args.at(-1)} was not shown (it ended with ${code}):\n${said}`));
      else resolve(times);
    });
  });

const median = (values: number[]): number => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;

/** Why nothing can be measured here, or null. */
const obstacle = (): string | null => {
  if (!existsSync(electronProgram()))
    return `There is no Electron in ${electronProgram()}. Name a folder that holds one: ELECTRON_OVERRIDE_DIST_PATH=…`;
  if (process.platform === 'linux' && !process.env.DISPLAY && !process.env.WAYLAND_DISPLAY)
    return 'There is no display here. Run it under one: xvfb-run -a node tests/bench/window.ts';
  return null;
};

const measure = async (folder: string): Promise<void> => {
  await buildStale(['renderer', 'electron'], sentence => console.log(sentence));
  const empty = join(folder, 'empty');
  mkdirSync(empty);
  writeFileSync(join(empty, 'package.json'), '{ "name": "empty", "main": "main.cjs" }');
  writeFileSync(
    join(empty, 'main.cjs'),
    `const { app, BrowserWindow } = require('electron');
     if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox();
     app.whenReady().then(() => {
       const window = new BrowserWindow({ width: 1280, height: 800, show: false });
       window.once('ready-to-show', () => window.show());
       window.loadURL('about:blank');
     });`,
  );
  const collection = join(folder, 'Demo');
  await copyDemo(collection);
  const profile = (name: string) => `--user-data-dir=${join(folder, name)}`;
  const home = { HOME: folder, XDG_CONFIG_HOME: folder };
  const startEmpty = (idle = {}) => start([profile('empty-profile'), empty], { ...home, ...idle });
  const { nodeApi } = await startEmpty();
  const relayed = nodeApi < neededNodeApi;
  if (relayed)
    console.log(
      `This Electron is too old to load the database: the service runs in Node ${process.versions.node}.`,
    );
  const startOurs = (idle = {}) =>
    start([profile('profile'), root, `--collection=${collection}`], {
      ...home,
      PLAYWORN_BENCH_HEADING: 'Most valuable',
      ...idle,
      ...(relayed && { PLAYWORN_SERVICE_NODE: process.execPath }),
    });
  await startOurs();
  const bare: Times[] = [];
  const ours: Times[] = [];
  for (let run = 0; run < runs; run++) {
    bare.push(await startEmpty());
    ours.push(await startOurs());
  }
  const line = (what: string, list: number[]) =>
    console.log(
      `${what.padEnd(26)} median ${median(list)} ms (${Math.min(...list)} to ${Math.max(...list)}, ${runs} runs)`,
    );
  line(
    'an empty window, shown',
    bare.map(({ filled }) => filled),
  );
  line(
    'Playworn, window shown',
    ours.map(({ shown }) => shown),
  );
  line(
    'Playworn, Home of the demo',
    ours.map(({ filled }) => filled),
  );
  measured({
    work: 'a start until the window shows Home of the demo',
    value: median(ours.map(({ filled }) => filled)),
    unit: 'ms',
    beside: { what: 'an empty window', value: median(bare.map(({ filled }) => filled)) },
    goal: target,
    goalOf: 'ratio',
  });
  const watched = { PLAYWORN_BENCH_IDLE: String(idleFor) };
  // As milliseconds of processor time in each second. Where the service is relayed, its Node is not among them.
  const idle = ({ idle: share }: Times) => share / 100;
  measured({
    work: `Home of the demo at rest, per second${relayed ? ', without the service' : ''}`,
    value: idle(await startOurs(watched)),
    unit: 'ms',
    beside: { what: 'an empty window at rest', value: idle(await startEmpty(watched)) },
    goal: null,
  });
};

const why = obstacle();
if (why) {
  console.error(`NOT MEASURED: ${why}`);
  process.exitCode = 1;
} else {
  const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
  try {
    await measure(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
