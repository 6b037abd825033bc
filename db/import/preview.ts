import { coloursOnly } from '../reference/colour-names.ts';
import { CellCounter } from './cell-counter.ts';
import { ourColumns } from './columns.ts';
import { settleCurrencies } from './currency-evidence.ts';
import { openTable } from './files/table.ts';
import { rowView } from './judges/row-view.ts';
import { learnFormats } from './learn.ts';
import { dryTarget, plannedLot } from './lot-of-import.ts';
import { type Mapping, mapColumns } from './mapping.ts';
import { habitsOf, type ImportRequest, judgeAll, judgeFor, notUnderstoodOf, ownCurrency } from './reading.ts';
import { kindWarnings } from './said-of-file.ts';
import {
  type CellCounts,
  type ImportPreview,
  type ImportRowView,
  MissingColumnError,
  type NotUnderstood,
} from './types.ts';

const sampleRows = 25;
const shownRejections = 25;

/**
 * Shows how a file would be taken in, without taking anything: its encoding, columns and formats, and what
 * becomes of its rows. Throws ImportFileError where the file cannot be read as a table or a required
 * column is missing.
 */
export const previewImport = async (request: ImportRequest): Promise<ImportPreview> => {
  const { collection, file, name, options, signal } = request;
  const colours = request.colours ?? (await coloursOnly(collection.read.db));
  const table = await openTable(file, name, options, colours);
  let mapping: Mapping;
  let problem: string[] = [];
  try {
    mapping = mapColumns(table, options);
  } catch (error) {
    if (!(error instanceof MissingColumnError)) throw error;
    // The headings do not say enough yet: the columns are shown, to be mapped.
    mapping = mapColumns(table, options, false);
    problem = [error.message];
  }
  const formats = await learnFormats(table, mapping, options, signal);
  const { rows, learned, questions } = formats;
  const counts = { accepted: 0, rejected: 0, duplicates: 0, unidentified: 0 };
  const sample: ImportRowView[] = [];
  const missing = new Set<string>();
  let notUnderstood: NotUnderstood[] = [];
  const cells: CellCounts = { understood: 0, partly: 0, unknown: 0, idle: 0 };
  const target = await dryTarget(request);
  const currency = await ownCurrency(collection.read.db, options, target.lotCurrency);
  const ofCurrencies = settleCurrencies(mapping.currencies, currency, options);
  if (problem.length === 0) {
    const habits = await habitsOf(collection.read.db, mapping, formats, options);
    const texts = await notUnderstoodOf(collection.read.db, habits);
    const judge = await judgeFor(request, collection.read.db, habits, {
      ...target,
      currency,
      onMissing: casting => missing.size < 1000 && missing.add(casting),
    });
    const counter = new CellCounter(mapping, cells);
    let shown = 0;
    await judgeAll({ table, habits, judge, rows, request }, (row, outcome) => {
      const { judged, reader } = outcome;
      if (judged.outcome !== 'rejected') {
        texts.add(row.line, reader.unread);
        counter.see(row, reader.unread);
      } else
        texts.add(
          row.line,
          reader.unread.filter(({ asks }) => asks),
        );
      counts[judged.outcome === 'duplicate' ? 'duplicates' : judged.outcome]++;
      if (judged.outcome === 'accepted' && judged.unidentified) counts.unidentified++;
      const extra = judged.outcome === 'rejected' && shown < shownRejections;
      if (sample.length < sampleRows || extra) {
        sample.push(rowView(habits, row, outcome));
        if (judged.outcome === 'rejected') shown++;
      }
    });
    notUnderstood = texts.list();
  }
  const { format, encoding, encodingBecause, separator, sheets, sheet, headingLine } = table;
  const { purchases } = target;
  return {
    file: name,
    format,
    encoding,
    encodingBecause,
    separator,
    sheets,
    sheet,
    headingLine,
    headingLines: table.headingLines,
    ourColumns: ourColumns[options.as].map(({ name: column, required, help }) => ({
      name: column,
      required,
      help,
    })),
    columns: mapping.columns,
    rows,
    counts,
    cells,
    lots: options.as === 'lot' ? purchases.planned(await plannedLot(request)) : [],
    hasPurchases: purchases.hasPurchases,
    sample,
    missingCastings: [...missing],
    notUnderstood,
    learned: [...learned, ...ofCurrencies.learned],
    questions: [...questions, ...ofCurrencies.questions],
    warnings: [...problem, ...table.warnings, ...mapping.warnings, ...kindWarnings(mapping, options)],
  };
};
