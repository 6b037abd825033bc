import { ORPCError } from '@orpc/server';
import { printable, printableLines } from './printable.ts';

/** What was asked cannot be done with this input; the message says why. Exit code 1. */
export class Refused extends Error {}

export const exitCodes = { done: 0, refused: 1, wrongUse: 2, interrupted: 130 } as const;

export const exitCodesHelp = `
Exit codes:
  0    done
  1    refused, found damaged, or not backed up on closing; the standard error says why
  2    wrong use: an unknown command or option, or a value that is not valid
  130  interrupted (Ctrl+C); what was not finished has left nothing behind`;

/** Results go to the standard output, everything said on the way to the standard error. */
export const say = (sentence: string): void => void process.stderr.write(`${printableLines(sentence)}\n`);

/** Prints the result: as JSON where it was asked for, else as lines for a reader. */
export const print = <T>(json: boolean | undefined, value: T, lines: (value: T) => string[]): void =>
  void process.stdout.write(
    `${json ? printableLines(JSON.stringify(value, null, 2)) : lines(value).map(printable).join('\n')}\n`,
  );

/** Ends with 1 where the result, already printed, tells what was refused. */
export const endRefused = (sentence: string): void => {
  say(sentence);
  process.exitCode ??= exitCodes.refused;
};

/** True for what the API, or a command, refuses with reasons; anything else is a fault of the program. */
const isRefusal = (error: unknown): boolean =>
  error instanceof Refused || (error instanceof ORPCError && error.code !== 'INTERNAL_SERVER_ERROR');

/** What `--json` answers where there is no result. */
export const printFailure = (message: string): void =>
  void process.stdout.write(`${printableLines(JSON.stringify({ error: message }, null, 2))}\n`);

/** A collection that only a backup brings back is told with the command that does it. */
const withRemedy = (error: unknown, message: string): string => {
  const { reason } = (error instanceof ORPCError && (error.data as { reason?: string } | undefined)) || {};
  const wanted = reason === 'damaged' || reason === 'needs-restoring';
  return wanted && !message.includes('playworn restore')
    ? `${message} "playworn restore --collection DIR" brings back the newest one.`
    : message;
};

export const reportFailure = (error: unknown, json: boolean): number => {
  const message = withRemedy(error, error instanceof Error ? error.message : String(error));
  if (json) printFailure(message);
  say(message);
  if (!isRefusal(error) && error instanceof Error && process.env.PLAYWORN_DEBUG) say(String(error.stack));
  return exitCodes.refused;
};

/** Columns padded to their widest cell; numbers to the right. However many rows there are. */
export const table = (heads: string[], cells: string[][], right: number[] = []): string[] => {
  const rows = cells.map(row => row.map(printable));
  const widths = heads.map((head, column) =>
    rows.reduce((widest, row) => Math.max(widest, row[column]?.length ?? 0), head.length),
  );
  const line = (row: string[]) =>
    row
      .map((cell, column) => {
        const width = widths[column] ?? 0;
        return right.includes(column) ? cell.padStart(width) : cell.padEnd(width);
      })
      .join('  ')
      .trimEnd();
  return [line(heads), line(widths.map(width => '─'.repeat(width))), ...rows.map(line)];
};
