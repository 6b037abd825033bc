import { Argument, type Command, Option } from 'commander';
import { labelSheetKeys } from '../../reports/labels/label-sheets.ts';
import { paperSizes } from '../../reports/types.ts';
import { valueBases } from '../../valuation/words.ts';
import { exportedLists } from '../api/exports/exports.ts';
import { paperKinds } from '../api/papers/papers.ts';
import { addCommand } from './add-command.ts';
import { isoDate, labelStart, listPath, pdfPath, reportPath, zipPath } from './arguments.ts';
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
      new Option('--kind <KIND>', 'which paper')
        .choices(['collection', 'lot', ...paperKinds])
        .default('collection'),
    )
    .option('--car <NUMBER>', 'of a dossier, sale sheet, claim or bench sheet: the inventory number')
    .option('--lot <NAME>', 'this lot only')
    .option('--from <YYYY-MM-DD>', 'of a ledger: its first day; without it, the first of January', isoDate)
    .option('--to <YYYY-MM-DD>', 'of a ledger: its last day; without it, the end of that year', isoDate)
    .option('--no-values', 'without values and prices')
    .option('--no-places', 'without where cars are kept')
    .option('--on <YYYY-MM-DD>', 'effective date; without it, today', isoDate)
    .option('--title <TITLE>', 'what the cover says')
    .addOption(new Option('--basis <BASIS>', 'basis of value').choices(valueBases))
    .addOption(new Option('--paper <PAPER>', 'size of the pages').choices(paperSizes))
    .option('--definition <NAME>', 'as it was saved under this name on Reports; it is noted there')
    .option('--no-photographs', 'leave the photographs out')
    .option('--prepared', 'print when it was prepared')
    .action(report);
  addCommand(program, 'labels', 'a label for each car, with its number as a QR code')
    .requiredOption('--out <FILE.pdf>', 'FILE.pdf', pdfPath)
    .addOption(
      new Option('--sheet <SHEET>', 'the sheet, or the roll').choices(labelSheetKeys).default('a4-3x8'),
    )
    .option('--start <N>', 'the first label to use of a sheet that was begun', labelStart, 1)
    .option('--lot <NAME>', 'this lot only')
    .action(labels);
  addCommand(
    program,
    'gallery',
    'the cars as web pages to open or to put on a site; no values, no places, no people',
  )
    .requiredOption('--out <DIR>', 'a folder that is not there yet or is empty, or FILE.zip')
    .option('--title <TITLE>', "what stands over it; without it, the collection's name")
    .option('--lot <NAME>', 'this lot only')
    .action(gallery);
  addCommand(program, 'export', 'a whole list as CSV, XLSX or JSON lines')
    .addArgument(new Argument('<LIST>', 'which list').choices(exportedLists))
    .requiredOption('--out <FILE>', 'FILE.csv, FILE.xlsx or FILE.jsonl', listPath)
    .action(exportList);
  addCommand(program, 'share', 'sale records and reference as one file for a friend; nothing of your cars')
    .requiredOption('--out <FILE.zip>', 'FILE.zip', zipPath)
    .action(share);
  addCommand(
    program,
    'archive',
    'the whole collection as one archive: database, every table, photographs, a report',
  )
    .requiredOption('--out <FILE>', 'FILE.zip, or a folder that is not there yet')
    .option('--no-report', 'without a report')
    .action(archive);
  addCommand(
    program,
    'unarchive <FILE>',
    'check an archive and make a collection of it in a new folder',
  ).action(unarchive);
};
