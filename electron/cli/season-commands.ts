import { type Command, Option } from 'commander';
import { spell } from '../../valuation/wording/dialect.ts';
import { plainLocale } from '../../valuation/wording/reader.ts';
import { addCommand } from './add-command.ts';
import { amount, carWish, count, hours, orNone, partLimit, repeated } from './arguments.ts';
import { season } from './commands/season.ts';
import { seasons } from './commands/seasons.ts';

/** The commands of a season: choosing and saving one, and what is done with those that are saved. */
export const addSeasonCommands = (program: Command): void => {
  addCommand(
    program,
    'season <NAME>',
    'choose what to do this season, and save it under this name as the current season; if there is one of this name, its cars are chosen again within its limits, except for those given',
  )
    .option('--hours <H>', 'bench hours to spend; "none" for no limit', orNone(hours))
    .option('--cash <C>', 'cash to spend, in the reporting currency; "none" for no limit', orNone(amount))
    .option('--most-cars <N>', 'how many cars there is room for; "none" for no limit', orNone(count))
    .option('--per-casting <N>', 'the most cars of one casting; "none" for no limit', orNone(count))
    .addOption(
      new Option(
        '--part <LIMIT>',
        'the most of a part that may be used, as "NAME=4" (default: what is on the shelf); may be repeated',
      ).argParser(partLimit),
    )
    .addOption(
      new Option(
        '--must <CAR>',
        spell(
          'a car that must be in, as NUMBER or NUMBER=restore, conserve, customise or donor; may be repeated',
          plainLocale,
        ),
      ).argParser(repeated(carWish)),
    )
    .addOption(
      new Option('--never <NUMBER>', 'a car that is left out; may be repeated').argParser(repeated(String)),
    )
    .addOption(
      new Option(
        '--free <NUMBER>',
        'a car that is no longer required or left out; may be repeated',
      ).argParser(repeated(String)),
    )
    .action(season);
  addCommand(
    program,
    'seasons [NAME]',
    'the seasons, or one by its name: its cars, the gain expected and the gain made',
  )
    .option('--make-current', 'make this season the current one')
    .option('--rename <NEW>', 'give it another name')
    .option('--to-bench', 'put those of its cars that wait on the bench')
    .option('--close', 'close it today')
    .option('--remove', 'remove it; its cars and their jobs stay')
    .action(seasons);
};
