import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const command = fileURLToPath(new URL('../../../electron/cli/playworn.mjs', import.meta.url));

export interface Outcome {
  code: number;
  stdout: string;
  stderr: string;
}

/** Runs the command as a user does, in a process of its own: where the process itself is what is tested. */
export const playwornProcess = (args: string[], node = process.execPath): Promise<Outcome> =>
  new Promise((resolve, reject) => {
    execFile(node, [command, ...args], { maxBuffer: 64_000_000 }, (error, stdout, stderr) => {
      if (error && typeof error.code !== 'number') reject(error);
      else resolve({ code: typeof error?.code === 'number' ? error.code : 0, stdout, stderr });
    });
  });

/** Collects what is written to a stream until it is let go. */
const held = (stream: NodeJS.WriteStream) => {
  const { write } = stream;
  let text = '';
  stream.write = (chunk: string | Uint8Array) => {
    text += typeof chunk === 'string' ? chunk : Buffer.from(chunk).toString();
    return true;
  };
  return () => {
    stream.write = write;
    return text;
  };
};

const here = async (args: string[]): Promise<Outcome> => {
  const { runCommand } = await import('../../../electron/cli/run-command.ts');
  const { exitCode } = process;
  const mask = process.umask();
  process.exitCode = undefined;
  const [stdout, stderr] = [held(process.stdout), held(process.stderr)];
  try {
    await runCommand(args);
    return { code: Number(process.exitCode), stdout: stdout(), stderr: stderr() };
  } finally {
    stdout();
    stderr();
    process.exitCode = exitCode;
    process.umask(mask);
  }
};

let last: Promise<unknown> = Promise.resolve();

/**
 * Runs the same program within this process, one command after the other: starting a process and reading the
 * program into it takes most of the time of a command on a few cars.
 */
export const playworn = (args: string[]): Promise<Outcome> => {
  const next = last.then(() => here(args));
  last = next;
  return next;
};

/** Runs it with `--json`; fails the test, with what was said, where it does not end as expected. */
export const answer = async (args: string[], code = 0, run = playworn) => {
  const outcome = await run([...args, '--json']);
  if (outcome.code !== code)
    throw new Error(`playworn ${args.join(' ')} ended with ${outcome.code}:\n${outcome.stderr}`);
  return JSON.parse(outcome.stdout);
};
