import { ORPCError } from '@orpc/server';

/** What was asked cannot be done with this input; the message says why. Exit code 1. */
export class Refused extends Error {}

export const exitCodes = { done: 0, refused: 1, wrongUse: 2 } as const;

/** Results go to the standard output, everything said on the way to the standard error. */
export const say = (sentence: string): void => void process.stderr.write(`${sentence}\n`);

/** Prints the result: as JSON where it was asked for, else as lines for a reader. */
export const print = <T>(json: boolean | undefined, value: T, lines: (value: T) => string[]): void =>
  void process.stdout.write(`${json ? JSON.stringify(value, null, 2) : lines(value).join('\n')}\n`);

/** Ends with 1 where the result, already printed, tells what was refused. */
export const endRefused = (sentence: string): void => {
  say(sentence);
  process.exitCode = exitCodes.refused;
};

/** True for what the API, or a command, refuses with reasons; anything else is a fault of the program. */
const isRefusal = (error: unknown): boolean =>
  error instanceof Refused || (error instanceof ORPCError && error.code !== 'INTERNAL_SERVER_ERROR');

/** What `--json` answers where there is no result. */
export const printFailure = (message: string): void =>
  void process.stdout.write(`${JSON.stringify({ error: message }, null, 2)}\n`);

export const reportFailure = (error: unknown, json: boolean): number => {
  const message = error instanceof Error ? error.message : String(error);
  if (json) printFailure(message);
  say(message);
  if (!isRefusal(error) && error instanceof Error && process.env.PLAYWORN_DEBUG) say(String(error.stack));
  return exitCodes.refused;
};

/** Columns padded to their widest cell; numbers to the right. */
export const table = (heads: string[], rows: string[][], right: number[] = []): string[] => {
  const widths = heads.map((head, column) =>
    Math.max(head.length, ...rows.map(row => row[column]?.length ?? 0)),
  );
  const line = (cells: string[]) =>
    cells
      .map((cell, column) => {
        const width = widths[column] ?? 0;
        return right.includes(column) ? cell.padStart(width) : cell.padEnd(width);
      })
      .join('  ')
      .trimEnd();
  return [line(heads), line(widths.map(width => '─'.repeat(width))), ...rows.map(line)];
};
