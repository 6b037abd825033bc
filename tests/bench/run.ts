/**
 * Runs the programs of the bench one after the other, prints their lines, and keeps them in `output/bench/`
 * as JSON. `npm run bench -- [--cars 100000] [--only service,search] [--against output/bench/FILE.json]`; the
 * last compares.
 */
import { fork } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { isMissed, lineOf, type Measure } from './measure.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

const { values } = parseArgs({
  options: {
    cars: { type: 'string', default: '100000' },
    only: { type: 'string' },
    against: { type: 'string' },
  },
});

/** Each in a process of its own, so that none meets the memory of another. */
const programs: [string, string[]][] = [
  ['revalue', []],
  ['plans', []],
  ['service', [values.cars]],
  ['season', [values.cars]],
  ['search', [values.cars]],
  ['memory', [values.cars]],
  ['import', []],
  ['choose-under-limits', []],
  ['choose-season', []],
  ['report', ['5000']],
  ['papers', ['5000']],
  ['demo', []],
  ['screens', [values.cars]],
  ['window', []],
];

interface Run {
  at: string;
  machine: string;
  node: string;
  cars: number;
  measures: Measure[];
  /** Programs that ended without their measures, with how. */
  failed: string[];
}

const runProgram = (name: string, args: string[]): Promise<{ measures: Measure[]; failed: boolean }> =>
  new Promise(resolve => {
    console.log(`\n${name}`);
    const measures: Measure[] = [];
    const child = fork(join(import.meta.dirname, `${name}.ts`), args, { stdio: 'inherit', cwd: root });
    child.on('message', message => measures.push(message as Measure));
    child.on('exit', code => {
      const failed = measures.length === 0 || (code !== 0 && !measures.some(isMissed));
      resolve({ measures, failed });
    });
  });

const compared = (now: Measure[], before: Measure[]): string[] =>
  now.map(measure => {
    const other = before.find(({ work, unit }) => work === measure.work && unit === measure.unit);
    return other
      ? `${measure.work.padEnd(58)} ${other.value.toFixed(1)} → ${measure.value.toFixed(1)} ${measure.unit} (${(measure.value / other.value).toFixed(2)} ×)`
      : `${measure.work.padEnd(58)} new: ${measure.value.toFixed(1)} ${measure.unit}`;
  });

const wanted = values.only?.split(',');
const unknown = wanted?.find(name => !programs.some(([program]) => program === name));
if (unknown)
  throw new Error(`There is no program "${unknown}": ${programs.map(([name]) => name).join(', ')}`);
const run: Run = {
  at: new Date().toISOString(),
  machine: `${cpus()[0]?.model ?? ''}, ${cpus().length} cores`,
  node: process.version,
  cars: Number(values.cars),
  measures: [],
  failed: [],
};
for (const [name, args] of programs) {
  if (wanted && !wanted.includes(name)) continue;
  const { measures, failed } = await runProgram(name, args);
  run.measures.push(...measures);
  if (failed) run.failed.push(name);
}

console.log(`\n${run.machine}, Node ${run.node}, ${run.cars} cars`);
for (const measure of run.measures) console.log(lineOf(measure));
for (const name of run.failed) console.log(`${name} ended without all its measures`);
if (values.against) {
  const before: Run = JSON.parse(readFileSync(values.against, 'utf8'));
  console.log(`\nagainst ${before.at}, ${before.machine}, ${before.cars} cars`);
  for (const line of compared(run.measures, before.measures)) console.log(line);
}
const folder = join(root, 'output/bench');
mkdirSync(folder, { recursive: true });
const file = join(folder, `${run.at.replaceAll(':', '-')}.json`);
writeFileSync(file, JSON.stringify(run, null, 2));
console.log(`\nkept as ${file}`);
if (run.failed.length > 0 || run.measures.some(isMissed)) process.exitCode = 1;
