import { CommanderError } from 'commander';
import { createProgram } from './program.ts';
import { exitCodes, printFailure, reportFailure } from './terminal.ts';

/**
 * Runs one command: `words` are what stands behind "playworn" on the command line. What it ends with is left
 * in `process.exitCode`; it never throws.
 */
export const runCommand = async (words: string[]): Promise<void> => {
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
};
