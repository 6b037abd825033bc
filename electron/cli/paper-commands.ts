import { Argument, type Command, Option } from 'commander';
import { labelSheetKeys } from '../../reports/labels/label-sheets.ts';
import { paperSizes, pdfStandards } from '../../reports/types.ts';
import { valueBases } from '../../valuation/words.ts';
import { exportedLists } from '../api/exports/exports.ts';
import { paperKinds } from '../api/inputs.ts';
import { addCommand } from './add-command.ts';
import {
  amount,
  folderOrZip,
  isoDate,
  labelStart,
  listPath,
  pdfPath,
  percent,
  reportPath,
  zipPath,
} from './arguments.ts';
import { archive, unarchive } from './commands/archive.ts';
import { exportList, share } from './commands/export.ts';
import { gallery } from './commands/gallery.ts';
import { labels } from './commands/labels.ts';
import { report } from './commands/report.ts';

/** The commands by which something goes out of a collection: papers, lists, a market to share, an archive. */
export const addPaperCommands = (program: Command): void => {
  addCommand(program, 'report', 'the collection, or one lot, as a document')
    .requiredOption('--out <FILE>', 'FILE.pdf, FILE.csv or FILE.xlsx', reportPath)
    .addOption(
      new Option('--kind <KIND>', 'the kind of report')
        .choices(['collection', 'lot', ...paperKinds])
        .default('collection'),
    )
    .option(
      '--car <NUMBER>',
      'the car of a dossier, sale sheet, claim or bench sheet, by its inventory number',
    )
    .option('--lot <NAME>', 'this lot only')
    .option('--from <YYYY-MM-DD>', 'first day of a ledger (default: January 1)', isoDate)
    .option('--to <YYYY-MM-DD>', 'last day of a ledger (default: a year from the first)', isoDate)
    .option(
      '--margin <PERCENT>',
      'of a bid: what is to be left (default: as saved with the lot, else 20)',
      percent,
    )
    .option(
      '--sure <PERCENT>',
      'of a bid: how sure of that (default: as saved with the lot, else 80)',
      percent,
    )
    .option('--premium <PERCENT>', "of a bid: the buyer's premium", percent)
    .option('--tax <PERCENT>', 'of a bid: tax', percent)
    .option('--delivery <AMOUNT>', 'of a bid: what delivery costs, in the reporting currency', amount)
    .option('--no-values', 'without values and prices')
    .option('--no-places', 'without where cars are kept')
    .option('--on <YYYY-MM-DD>', 'effective date (default: today)', isoDate)
    .option('--title <TITLE>', 'title on the cover')
    .addOption(new Option('--basis <BASIS>', 'basis of value').choices(valueBases))
    .addOption(new Option('--paper <PAPER>', 'size of the pages').choices(paperSizes))
    .option('--definition <NAME>', 'the saved report of this name; that it was made is noted there')
    .option('--changes', 'of the collection or a lot: what changed since the last report that was noted')
    .addOption(
      new Option('--standard <STANDARD>', 'of a PDF: archival (a-2a), accessible (ua-1), or neither').choices(
        pdfStandards,
      ),
    )
    .option('--keep', 'note it on Reports, so that the next one can be compared with it')
    .option('--no-photographs', 'leave the photographs out')
    .option('--prepared', 'print when it was prepared')
    .action(report);
  addCommand(program, 'labels', 'a label for each car, with its number as a QR code')
    .requiredOption('--out <FILE.pdf>', 'FILE.pdf', pdfPath)
    .addOption(
      new Option('--sheet <SHEET>', 'the sheet, or the roll').choices(labelSheetKeys).default('a4-3x8'),
    )
    .option('--start <N>', 'the first label to print on, for a sheet that was partly used', labelStart, 1)
    .option('--lot <NAME>', 'this lot only')
    .action(labels);
  addCommand(program, 'gallery', 'the cars as web pages, without values, places or people')
    .requiredOption('--out <DIR>', 'a new or empty folder, or FILE.zip', folderOrZip)
    .option('--title <TITLE>', "its title (default: the collection's name)")
    .option('--lot <NAME>', 'this lot only')
    .action(gallery);
  addCommand(program, 'export', 'a whole list as CSV, XLSX or JSON lines; import takes each again')
    .addArgument(new Argument('<LIST>', 'which list').choices(exportedLists))
    .requiredOption('--out <FILE>', 'FILE.csv, FILE.xlsx or FILE.jsonl', listPath)
    .option(
      '--view <NAME>',
      'of cars or sales: what a saved view shows, in its order and columns; of expenses, disposals, decisions or jobs: those of the cars that a saved view shows',
    )
    .action(exportList);
  addCommand(
    program,
    'share',
    'sale records and reference as one file for a friend, with nothing about your cars',
  )
    .requiredOption('--out <FILE.zip>', 'FILE.zip', zipPath)
    .action(share);
  addCommand(
    program,
    'archive',
    'the whole collection as one archive: database, every table, photographs, a report',
  )
    .requiredOption('--out <FILE>', 'FILE.zip, or a new folder', folderOrZip)
    .option('--no-report', 'without a report')
    .action(archive);
  addCommand(
    program,
    'unarchive <FILE>',
    'check an archive and make a collection of it in a new folder',
  ).action(unarchive);
};
