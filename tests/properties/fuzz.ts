/**
 * Runs every property test again and again with new values:
 *
 *   npm run fuzz                        ten minutes
 *   npm run fuzz -- --minutes 30
 *   npm run fuzz -- --file parse-money  only test files whose path contains this
 *
 * Each round takes a random seed and a thousand runs for properties that do not say how many they need. A
 * failure is printed with the values it fell to and the line that repeats it (`--seed`, `--path`, `--file`,
 * `--test`: one round). Exits with 1 if anything failed.
 */
import { spawn } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { globSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { type Failure, failuresOf, repeatLine } from './failures.ts';
import { type PropertySettings, settingsVariable } from './settings.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const results = join(root, 'output', 'results-fuzz.json');

const { values: options } = parseArgs({
  options: {
    minutes: { type: 'string', default: '10' },
    runs: { type: 'string', default: '1000' },
    seed: { type: 'string' },
    path: { type: 'string' },
    file: { type: 'string' },
    test: { type: 'string' },
  },
});

const numberOf = (name: 'minutes' | 'runs' | 'seed', text: string): number => {
  const number = Number(text);
  if (text.trim() === '' || !Number.isFinite(number)) {
    console.error(`--${name} needs a number, not "${text}"`);
    process.exit(2);
  }
  return number;
};

const minutes = numberOf('minutes', options.minutes);
const numRuns = numberOf('runs', options.runs);
const given = options.seed === undefined ? undefined : numberOf('seed', options.seed);

const files = globSync('tests/**/*.test.{ts,tsx}', { cwd: root })
  .map(file => file.replaceAll('\\', '/'))
  .filter(file => readFileSync(join(root, file), 'utf8').includes("'fast-check'"))
  .filter(file => file.includes(options.file ?? ''))
  .sort();
if (files.length === 0) {
  console.error(`No file with property tests has "${options.file}" in its path`);
  process.exit(2);
}

/** One run of vitest over the files; what it prints is shown only where it leaves no results. */
const runTests = (settings: PropertySettings): Promise<string> =>
  new Promise(resolve => {
    rmSync(results, { force: true });
    const child = spawn(
      process.execPath,
      [
        join(root, 'node_modules/vitest/vitest.mjs'),
        'run',
        '--config=tests/vitest.config.ts',
        '--reporter=json',
        `--outputFile=${results}`,
        '--testTimeout=1800000',
        ...(options.test === undefined
          ? []
          : [`--testNamePattern=^${options.test.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&')}$`]),
        ...files,
      ],
      { cwd: root, env: { ...process.env, [settingsVariable]: JSON.stringify(settings) } },
    );
    let printed = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', part => {
        printed += part;
      });
    child.on('error', error => resolve(String(error)));
    child.on('exit', () => resolve(printed));
  });

const round = async (settings: PropertySettings): Promise<{ passed: number; failures: Failure[] }> => {
  const printed = await runTests(settings);
  try {
    return failuresOf(JSON.parse(readFileSync(results, 'utf8')), root);
  } catch (error) {
    console.error(printed);
    const message = `The tests left no results: ${error instanceof Error ? error.message : error}`;
    return { passed: 0, failures: [{ file: options.file ?? '', test: options.test ?? '', message }] };
  }
};

mkdirSync(join(root, 'output'), { recursive: true });
const started = Date.now();
const elapsed = () => (Date.now() - started) / 60_000;
console.log(`${files.length} files with property tests`);

const seen = new Map<string, string>();
let rounds = 0;
let tests = 0;
do {
  const seed = given ?? randomInt(2 ** 31);
  const from = elapsed();
  const { passed, failures } = await round({ seed, numRuns, path: options.path });
  rounds++;
  tests += passed;
  for (const failure of failures) {
    const line = repeatLine(failure, { seed, numRuns });
    console.log(`\nFAILED ${failure.file}: ${failure.test}\n${failure.message}\nTo repeat it:\n  ${line}\n`);
    const key = `${failure.file}: ${failure.test}`;
    if (!seen.has(key)) seen.set(key, line);
  }
  const seconds = Math.round((elapsed() - from) * 60);
  console.log(
    `round ${rounds}, seed ${seed}: ${passed} passed, ${failures.length} failed in ${seconds} s; ${elapsed().toFixed(1)} minutes so far`,
  );
} while (given === undefined && elapsed() < minutes);

if (tests === 0 && seen.size === 0)
  console.error(
    `No test was run${options.test === undefined ? '' : `: none has the name "${options.test}"`}`,
  );
console.log(`\n${rounds} rounds, ${tests} tests passed, ${seen.size} different tests failed`);
for (const [title, line] of seen) console.log(`${title}\n  ${line}`);
process.exit(seen.size === 0 && tests > 0 ? 0 : 1);
