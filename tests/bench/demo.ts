/** The demo made by the command line, its photographs drawn. Run: node tests/bench/demo.ts */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { measured } from './measure.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
const command = join(import.meta.dirname, '../../electron/cli/playworn.mjs');
try {
  const began = performance.now();
  execFileSync(process.execPath, [command, 'demo', '--collection', join(folder, 'Demo')]);
  measured({ work: 'the demo made', value: (performance.now() - began) / 1000, unit: 's', goal: 20 });
} finally {
  rmSync(folder, { recursive: true, force: true });
}
