/**
 * Runs the tests and ends with one line, `N passed, N failed`, over all suites; exits with 1 unless
 * every one passed.
 *
 *   npm test              units, then the screens in a browser
 *   npm test -- window    the screens in the Electron window (needs an Electron and a display, see .ci/run)
 *
 * A suite that cannot run, or runs nothing, counts as failed; skipped tests are named in the lines
 * before the last.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Counts, countsOfPlaywright, countsOfVitest, noCounts } from './run-counts.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const output = join(root, 'output');
const binary = (name: string) => join(root, 'node_modules/.bin', name);

const run = (command: string, args: string[], env: Record<string, string> = {}): Promise<number> =>
  new Promise(resolve => {
    const child = spawn(command, args, { cwd: root, stdio: 'inherit', env: { ...process.env, ...env } });
    child.on('error', error => {
      console.error(`${command}: ${error.message}`);
      resolve(1);
    });
    child.on('exit', code => resolve(code ?? 1));
  });

const resultsOf = async (
  name: string,
  read: (results: unknown) => Counts,
  work: (file: string) => Promise<number>,
): Promise<Counts> => {
  console.log(`\n— ${name}`);
  const file = join(output, `results-${name.replaceAll(' ', '-')}.json`);
  rmSync(file, { force: true });
  const code = await work(file);
  let counts: Counts;
  try {
    counts = read(JSON.parse(readFileSync(file, 'utf8')));
  } catch (error) {
    console.error(`${name} left no results: ${error instanceof Error ? error.message : error}`);
    return { ...noCounts, failed: 1 };
  }
  if (counts.passed === 0 || (code !== 0 && counts.failed === 0)) {
    console.error(`${name} ended with ${code} after ${counts.passed} tests passed: that is a failure.`);
    counts.failed += 1;
  }
  return counts;
};

const units = () =>
  resultsOf('units', countsOfVitest, file =>
    run(binary('vitest'), [
      'run',
      '--config',
      'tests/vitest.config.ts',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${file}`,
    ]),
  );

/** What reads PDF back; without them the tests that need them say that they are skipped. */
const havePdfReaders = async (): Promise<void> => {
  const missing = ['pdftotext', 'qpdf'].filter(program => !existsSync(`/usr/bin/${program}`));
  if (missing.length === 0 || process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return;
  await run('apt-get', ['update', '-qq']);
  await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'poppler-utils', 'qpdf']);
};

/** A Chromium of the system's, or one installed now: by the system's packages as root, else by Playwright. */
const haveChromium = async (): Promise<void> => {
  if (['chromium', 'chromium-browser', 'google-chrome'].some(name => existsSync(`/usr/bin/${name}`))) return;
  const isRoot = process.getuid?.() === 0;
  if (isRoot && existsSync('/usr/bin/apt-get')) {
    await run('apt-get', ['update', '-qq']);
    if ((await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'])) === 0) return;
  }
  await run(binary('playwright'), ['install', 'chromium']);
};

const screensIn = (host: 'browser' | 'window') =>
  resultsOf(`screens in the ${host}`, countsOfPlaywright, file =>
    run(binary('playwright'), ['test', '--config', 'tests/e2e/playwright.config.ts', `--project=${host}`], {
      PLAYWORN_E2E_RESULTS: file,
      ...(host === 'window' && { PLAYWORN_SERVICE_NODE: process.execPath }),
    }),
  );

const [wanted] = process.argv.slice(2);
mkdirSync(output, { recursive: true });
if ((await run(process.execPath, ['electron/launcher/build.ts'])) !== 0) {
  console.log('0 passed, 1 failed');
  process.exit(1);
}
const suites: Counts[] = [];
if (wanted === 'window') {
  await haveChromium();
  suites.push(await screensIn('window'));
} else {
  await havePdfReaders();
  suites.push(await units());
  await haveChromium();
  suites.push(await screensIn('browser'));
}
const sum = (of: (counts: Counts) => number) => suites.reduce((total, counts) => total + of(counts), 0);
const [passed, failed, skipped] = [sum(c => c.passed), sum(c => c.failed), sum(c => c.skipped.length)];
console.log('');
for (const { skipped: titles } of suites) for (const title of titles) console.log(`SKIPPED: ${title}`);
if (skipped > 0) console.log(`${skipped} skipped, named above`);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
