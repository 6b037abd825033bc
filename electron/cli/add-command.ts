import { type Command, Option } from 'commander';

const jsonOption = () => new Option('--json', 'print the result as JSON');

/** A command on a collection, which answers as JSON where that is asked for. */
export const addCommand = (program: Command, usage: string, description: string): Command =>
  program
    .command(usage)
    .description(description)
    .requiredOption('--collection <DIR>', "the collection's folder")
    .addOption(jsonOption());
