import '../service/small-heap.ts';
import { CommanderError } from 'commander';
import { outliveReaders } from './outlive-readers.ts';
import { createProgram } from './program.ts';
import { exitCodes, printFailure, reportFailure } from './terminal.ts';

outliveReaders();
const words = process.argv.slice(2);
try {
  await createProgram().parseAsync(words, { from: 'user' });
  process.exitCode ??= exitCodes.done;
} catch (error) {
  const json = words.includes('--json');
  if (!(error instanceof CommanderError)) {
    const code = reportFailure(error, json);
    process.exitCode ??= code;
  } else if (error.exitCode === 0) process.exitCode = exitCodes.done;
  else {
    // Commander has said it on the standard error already.
    if (json) printFailure(error.message.replace(/^error: /, ''));
    process.exitCode = exitCodes.wrongUse;
  }
}
