import { CommanderError } from 'commander';
import { describe, expect, it } from 'vitest';
import { createProgram } from '../../../electron/cli/program.ts';

/** What the parser says to words that are not meant; every such error ends the process with 2. */
const complaintOn = async (words: string[]): Promise<string> => {
  const program = createProgram();
  let said = '';
  for (const command of [program, ...program.commands])
    command.exitOverride().configureOutput({
      writeErr: text => {
        said += text;
      },
    });
  const error = await program.parseAsync(words, { from: 'user' }).catch((thrown: unknown) => thrown);
  expect(error).toBeInstanceOf(CommanderError);
  expect((error as CommanderError).exitCode).not.toBe(0);
  return said;
};

describe('wrong use is refused before anything is opened', () => {
  const importing = ['import', 'x.csv', '--as', 'lot', '--collection', 'x'];
  it.each([
    [['frobnicate'], /unknown command/],
    [['value'], /--collection/],
    [['value', '--collection', 'x', '--on', '31.10.2026'], /YYYY-MM-DD/],
    [['value', '--collection', 'x', '--on', '2026-02-30'], /YYYY-MM-DD/],
    [['value', '--collection', 'x', '--on', '2026-13-01'], /YYYY-MM-DD/],
    [['value', '--collection', 'x', '--frobnicate'], /unknown option/],
    [['import', 'x.csv', '--collection', 'x'], /--as/],
    [['import', 'x.csv', '--as', 'cars', '--collection', 'x'], /lot, reference, sales/],
    [['import', '--as', 'lot', '--collection', 'x'], /FILE/],
    [[...importing, '--map', 'nothing'], /Their heading=our_column/],
    [[...importing, '--price', '$5'], /412\.50/],
    [[...importing, '--currency', 'dollars'], /ISO 4217/],
    [[...importing, '--currency', 'ZZZ'], /ISO 4217/],
    [['decide', '--collection', 'x', '--hours', 'many'], /14\.5/],
    [['report', '--collection', 'x'], /--out/],
    [['report', '--collection', 'x', '--out', 'x.doc'], /FILE\.pdf/],
    [['report', '--collection', 'x', '--out', 'x.pdf', '--paper', 'a3'], /a4, us-letter/],
  ])('%j', async (words, complaint) => {
    expect(await complaintOn(words)).toMatch(complaint);
  });
});
