import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const command = fileURLToPath(new URL('../../../electron/cli/playworn.mjs', import.meta.url));

export interface Outcome {
  code: number;
  stdout: string;
  stderr: string;
}

/** Runs the command as a user does, in a process of its own. */
export const playworn = (args: string[], node = process.execPath): Promise<Outcome> =>
  new Promise((resolve, reject) => {
    execFile(node, [command, ...args], { maxBuffer: 64_000_000 }, (error, stdout, stderr) => {
      if (error && typeof error.code !== 'number') reject(error);
      else resolve({ code: typeof error?.code === 'number' ? error.code : 0, stdout, stderr });
    });
  });

/** Runs it with `--json`; fails the test, with what was said, where it does not end as expected. */
export const answer = async (args: string[], code = 0) => {
  const outcome = await playworn([...args, '--json']);
  if (outcome.code !== code)
    throw new Error(`playworn ${args.join(' ')} ended with ${outcome.code}:\n${outcome.stderr}`);
  return JSON.parse(outcome.stdout);
};
