import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createProgram } from '../../../electron/cli/program.ts';

const readme = readFileSync(new URL('../../../README.md', import.meta.url), 'utf8');
const section = /\n## Command line\n([\s\S]*?)\n## /.exec(readme)?.[1] ?? '';

/** What the README shows of each command: the lines of its usage, those that go on with it included. */
const shown = new Map<string, string>();
for (const [usage, name = ''] of section.matchAll(/^ {4}npx playworn (\S+).*(?:\n {5,}\S.*)*/gm))
  shown.set(name, `${shown.get(name) ?? ''}${usage}\n`);

const optionsIn = (text: string): string[] =>
  [...new Set([...text.matchAll(/(?<![\w-])--[a-z][a-z-]*/g)].map(([flag]) => flag))].sort();

const commands = createProgram().commands;

describe('the usage that the README shows', () => {
  it('has every command, and no other', () => {
    expect([...shown.keys()].sort()).toEqual(commands.map(command => command.name()).sort());
  });

  it.each(commands.map(command => [command.name(), command] as const))(
    'has every option of %s',
    (name, command) => {
      // Each command takes --json, which is said once for all of them.
      const known = command.options.flatMap(({ long }) => (long && long !== '--json' ? [long] : []));
      expect(optionsIn(shown.get(name) ?? '')).toEqual(known.sort());
      expect(section).toContain('`--json`');
    },
  );

  it.each(commands.map(command => [command.name(), command] as const))(
    'has every word that an option of %s can be',
    (name, command) => {
      for (const { argChoices, long } of command.options)
        for (const choice of argChoices ?? []) expect(section, `${name} ${long}`).toContain(choice);
      for (const { argChoices } of command.registeredArguments)
        for (const choice of argChoices ?? []) expect(shown.get(name), name).toContain(choice);
    },
  );

  it('names no option in its text that there is not', () => {
    const known = new Set(commands.flatMap(({ options }) => options.map(({ long }) => long)));
    expect(optionsIn(section).filter(flag => !known.has(flag))).toEqual([]);
  });
});
