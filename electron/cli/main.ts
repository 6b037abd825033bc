import '../service/small-heap.ts';
import { CommanderError } from 'commander';
import { createProgram } from './program.ts';
import { exitCodes, reportFailure } from './terminal.ts';

const words = process.argv.slice(2);
try {
  await createProgram().parseAsync(words, { from: 'user' });
  process.exitCode ??= exitCodes.done;
} catch (error) {
  if (error instanceof CommanderError)
    process.exitCode = error.exitCode === 0 ? exitCodes.done : exitCodes.wrongUse;
  else process.exitCode = reportFailure(error, words.includes('--json'));
}
