import { Command, Option } from 'commander';
import { ledgerKinds } from '../../db/import/ledgers/columns.ts';
import { importKinds } from '../../db/import/types.ts';
import manifest from '../../package.json' with { type: 'json' };
import { dateOrders } from '../../valuation/reading/date.ts';
import { encodings } from '../../valuation/reading/file-formats.ts';
import { spell } from '../../valuation/wording/dialect.ts';
import { plainLocale } from '../../valuation/wording/reader.ts';
import { workKinds } from '../../valuation/words.ts';
import { addCommand } from './add-command.ts';
import { amount, columnMapping, currency, hours, isoDate, lineNumber, wantedGrade } from './arguments.ts';
import { believe } from './commands/believe.ts';
import { bench } from './commands/bench.ts';
import { backup, check, restore } from './commands/care.ts';
import { decide } from './commands/decide.ts';
import { demo } from './commands/demo.ts';
import { importFile } from './commands/import.ts';
import { names, settle } from './commands/names.ts';
import { plan } from './commands/plan.ts';
import { readSales } from './commands/read-sales.ts';
import { sets } from './commands/sets.ts';
import { value } from './commands/value.ts';
import { words } from './commands/words.ts';
import { addPaperCommands } from './paper-commands.ts';
import { addSeasonCommands } from './season-commands.ts';
import { exitCodesHelp } from './terminal.ts';

const addImport = (program: Command): void => {
  addCommand(
    program,
    'import <FILE>',
    'import a spreadsheet (CSV or XLSX) or JSON lines; creates the collection if it is missing',
  )
    .addOption(
      new Option('--as <KIND>', 'what the rows are')
        .choices([...importKinds, ...ledgerKinds, 'market'])
        .makeOptionMandatory(),
    )
    .addOption(
      new Option('--map <MAPPING>', 'how a column is mapped, as "Their heading=our_column"; may be repeated')
        .default({}, 'by their names')
        .argParser<Record<string, string | null>>(columnMapping),
    )
    .option('--dry-run', 'say what would be imported, and import nothing')
    .option('--add-reference', 'with sales: add the castings that the reference does not have')
    .option('--words <FILE.csv>', 'what words mean: column,text,field,meaning; the column may be *')
    .option('--rows', 'with --json: every row that is not blank, and how it was read')
    .option(
      '--not-understood <FILE.csv>',
      'write the texts that are not understood to a file that --words can read',
    )
    .option('--price <AMOUNT>', 'with a lot: what was paid for all of it', amount)
    .option('--currency <CODE>', 'currency of amounts that do not name one', currency)
    .option('--sold-on <YYYY-MM-DD>', 'with sales: the day of those whose rows name none', isoDate)
    .option('--source <TEXT>', 'with sales: where those were seen whose rows do not say it')
    .option('--name <NAME>', "with a lot: its name (default: the file's name)")
    .addOption(
      new Option(
        '--lots <HOW>',
        'with a lot: one lot for each purchase in the rows, or one lot for all of them',
      )
        .choices(['by purchase', 'one'])
        .default('by purchase'),
    )
    .option('--sheet <NAME>', 'the sheet of an XLSX file (default: all that are not hidden)')
    .option(
      '--heading-line <N>',
      'the line of the headings, 0 if there are none (default: found by their words)',
      lineNumber,
    )
    .addOption(
      new Option('--encoding <NAME>', 'the character encoding of a CSV file (default: detected)').choices(
        encodings,
      ),
    )
    .addOption(
      new Option(
        '--dates <ORDER>',
        'the order of dates that can be read two ways (default: as the other dates show)',
      ).choices(dateOrders),
    )
    .addOption(
      new Option('--decimal <SIGN>', 'the decimal sign of amounts (default: as each amount shows)').choices([
        'point',
        'comma',
      ]),
    )
    .action(importFile);
};

/** Every command, with its options; each action ends when its work is done. */
export const createProgram = (): Command => {
  const program = new Command('playworn')
    .description('Inventory and valuation of a vintage toy car collection.')
    .version(manifest.version)
    .exitOverride()
    .addHelpText('afterAll', exitCodesHelp)
    .showHelpAfterError('(playworn help COMMAND explains the options)');

  addCommand(program, 'demo', 'make the demo collection').action(demo);
  addImport(program);
  addCommand(program, 'read-sales <FILE>', 'read a text of sales that you saw, one a line')
    .option('--words <FILE.csv>', 'what words mean: column,text,field,meaning; the column may be *')
    .addOption(
      new Option(
        '--dates <ORDER>',
        'the order of dates that can be read two ways (default: as the other lines show)',
      ).choices(['dmy', 'mdy']),
    )
    .option(
      '--currency <CODE>',
      "currency of prices that do not name one (default: the collection's)",
      currency,
    )
    .option('--add', 'add them as sale records, without lines that are not the sale of one car')
    .action(readSales);
  addCommand(program, 'plan', 'the work on a car, step by step, with the cautions')
    .requiredOption('--car <NUMBER>', "the car's inventory number")
    .addOption(new Option('--to <WHAT>', 'the kind of work').choices(workKinds).default('restore'))
    .action(plan);
  addSeasonCommands(program);
  addCommand(
    program,
    'sets [NAME]',
    'the sets of castings, or one by its name: what is there, what is missing, what that would cost',
  )
    .option('--grade <GRADE>', 'the grade in which missing ones are looked for; without it, 6', wantedGrade)
    .action(sets);
  addCommand(program, 'bench', 'the cars on the bench in their order, with steps and time')
    .option('--all', 'also the jobs that are finished or given up')
    .action(bench);
  addCommand(
    program,
    'names',
    'the names that the reference does not know, similar spellings together',
  ).action(names);
  addCommand(program, 'settle <NAME>', 'say what such a name means, for all its spellings at once')
    .addOption(new Option('--as <WHAT>', 'a new casting, or no car at all').choices(['casting', 'not a car']))
    .option('--same-as <CASTING>', 'another spelling of a casting that the reference has')
    .option('--release-of <CASTING>', 'another name under which a casting was sold')
    .option('--series <NAME>', 'with --as casting: its series (default: as the rows say, or Unsorted)')
    .option('--maker <NAME>', 'with --as casting: its maker')
    .action(settle);
  addCommand(
    program,
    'believe',
    'say what you believe that cars of a series, a casting or a variation sell for',
  )
    .option('--casting <NAME>', 'a common car of this casting')
    .option('--series <NAME>', 'a common car of this series; with --casting, the series that it is in')
    .option('--maker <NAME>', 'tells apart castings or series with the same name')
    .option('--variation <TEXT>', 'with --casting: this variation, by the words that tell it apart')
    .option('--grade <GRADE>', 'at this grade, such as C8')
    .option('--low <AMOUNT>', 'the low end: eight of ten such cars sell between low and high')
    .option('--high <AMOUNT>', 'the high end')
    .option('--currency <CODE>', 'currency of both (default: the reporting currency)', currency)
    .option('--finish <STATE>', 'finish (default: original)')
    .option('--note <TEXT>', 'where you know it from')
    .option('--file <FILE>', 'many at once: a CSV file with these names as its columns')
    .action(believe);
  addCommand(
    program,
    'words [FILE]',
    'what texts mean in your lists; with a CSV or XLSX file or JSON lines (column,text,field,meaning), add its words and settle all that waited for them',
  ).action(words);
  addCommand(program, 'value', 'the value of every car as found, restored, and with its original finish')
    .option('--on <YYYY-MM-DD>', 'effective date (default: today)', isoDate)
    .action(value);
  addCommand(
    program,
    'decide',
    spell('leave, conserve, restore, customise or use as a donor, for every car', plainLocale),
  )
    .option('--hours <H>', 'bench hours to spend: then also which cars to take', hours)
    .option('--cash <C>', 'cash to spend, in the reporting currency: then also which cars to take', amount)
    .action(decide);
  addPaperCommands(program);
  addCommand(program, 'backup', 'back up the collection now').action(backup);
  addCommand(program, 'restore [BACKUP]', 'restore the newest backup, or the one that you name').action(
    restore,
  );
  addCommand(program, 'check', 'verify the database, the photographs and the backups')
    .option('--rebuild', 'rebuild the indexes and the search index first')
    .action(check);
  return program;
};
