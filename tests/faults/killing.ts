import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Runs of each kill: five in every test run, twenty-five with FULL=1. */
export const killRuns = process.env.FULL === '1' ? 25 : 5;

const workerPath = fileURLToPath(new URL('./worker.ts', import.meta.url));

/** Starts the worker and waits until it says that it is ready; `lines` grows with what it says afterwards. */
export const startWorker = async (args: string[], environment: Record<string, string> = {}) => {
  const child = spawn(process.execPath, [workerPath, ...args], {
    env: { ...process.env, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const lines: string[] = [];
  let rest = '';
  let complaint = '';
  let readied = () => {};
  const ready = new Promise<void>(resolve => {
    readied = resolve;
  });
  child.stdout.on('data', chunk => {
    const parts = (rest + chunk).split('\n');
    rest = parts.pop()!;
    for (const line of parts) line === 'ready' ? readied() : lines.push(line);
  });
  child.stderr.on('data', chunk => {
    complaint += chunk;
  });
  const ended = new Promise<NodeJS.Signals | null>(resolve =>
    child.on('close', (_, signal) => resolve(signal)),
  );
  await Promise.race([
    ready,
    ended.then(() => {
      throw new Error(`The worker ended before it was ready: ${complaint}`);
    }),
  ]);
  return { child, lines, ended, complaint: () => complaint };
};

/** Starts the worker, kills it `delay` ms after it is ready, and returns what it had acknowledged by then. */
export const killWhileWorking = async (args: string[], delay: number): Promise<string[]> => {
  const { child, lines, ended, complaint } = await startWorker(args);
  await new Promise(resolve => setTimeout(resolve, delay));
  child.kill('SIGKILL');
  const signal = await ended;
  if (signal !== 'SIGKILL') throw new Error(`The worker ended by itself: ${complaint()}`);
  return lines;
};

/** Delays spread over a span, the same in every run of the tests, none on a round number. */
export const delays = (span: number): number[] =>
  Array.from({ length: killRuns }, (_, i) => Math.round(((i + 0.37) / killRuns) * span));
