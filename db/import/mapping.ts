import type { MoneyHabit } from '../../valuation/reading/money.ts';
import { plainWord } from '../../valuation/reading/words.ts';
import {
  areFigures,
  areLotNumbers,
  areSentences,
  asNumbers,
  asYesOrNo,
  isDescribed,
  isOfCars,
  likeliest,
  mayBe,
  stateMeant,
  textsUnder,
} from './ambiguous-headings.ts';
import { ourColumns } from './columns.ts';
import type { CurrencyEvidence } from './currency-evidence.ts';
import type { Table } from './files/table.ts';
import { guessColumns } from './guess-columns.ts';
import { isOfNames, meaningsByWords } from './heading-words.ts';
import { type RecognisedHeading, recogniseHeadings } from './recognise-headings.ts';
import {
  type ColumnView,
  ImportFileError,
  type ImportKind,
  type ImportOptions,
  MissingColumnError,
} from './types.ts';

/** How the columns of a file become ours. */
export interface Mapping {
  columns: ColumnView[];
  /** Place in the file of each of our columns that the file has. */
  places: Map<string, number>;
  /** Places of further columns of remarks, which are read behind the first. */
  moreNotes: number[];
  /** How the amounts of our columns are written. */
  money: Map<string, MoneyHabit>;
  /** Which currencies those amounts name. */
  currencies: Map<string, CurrencyEvidence>;
  warnings: string[];
  /** An export of ours, in which a blank cell says that there is nothing to say. */
  isOurs: boolean;
}

/**
 * Headings that our own exports alone have together; beside them, what a lot cost its cars is not what was
 * paid for each.
 */
const exportsAlone = ['inventory_number', 'cost_currency', 'acquired_on'];
/** What such an export says of each car that was worked out, or is its lot's: none of it is read back. */
const notReadBack: ReadonlySet<string> = new Set(
  (
    'cost cost_currency currency acquired_on basis_of_value effective_date own_figures evidence ' +
    'not_understood restoration disclosure ' +
    ['as_found', 'restored', 'original_finish', 'restoration_cost']
      .flatMap(name => ['low', 'mid', 'high'].map(end => `${name}_${end}`))
      .join(' ')
  ).split(' '),
);

/** The second of two such headings has its number behind it. */
const amountAlone = /^(?:\p{Sc}|USD|EUR|GBP|CAD|AUD|CHF|JPY|for|für|pour|per|por|voor)(?: \(\d\))?$/iu;

/** A second heading of that name in a file. */
const amountWord = /^(?:price|cost|amount|amt|preis|prix|prezzo|precio|prijs|pris|cena) \(\d\)$/i;

/** What a heading that is a currency, or "for", alone, as "Sold, £", means behind another one. */
const amountBehind = (as: ImportKind, before: string): RecognisedHeading => {
  const meant = [...recogniseHeadings(as, before).map(({ ours }) => ours), ...meaningsByWords(as, before)];
  const isSold = meant.includes('sold_on');
  const ours = as === 'sales' ? 'price' : isSold ? 'sold_for' : 'price_paid';
  return { ours, how: 'recognised' };
};

/** True of a table whose rows begin with headings, one of a car's name among them: each column is a car. */
const isSideways = ({ headings, headingLines, sample }: Table, as: ImportKind): boolean => {
  const firsts = [headings[0], ...[...headingLines, ...sample].map(({ cells }) => cells[0])].filter(
    cell => typeof cell === 'string' && cell.trim() !== '',
  );
  const meant = firsts.map(cell => recogniseHeadings(as, String(cell))).filter(found => found.length > 0);
  const isNamed = meant.some(found => found.some(({ ours }) => ours === 'casting' || ours === 'description'));
  const different = new Set(meant.map(([first]) => first?.ours)).size;
  return isNamed && different >= 3 && different >= firsts.length * 0.6;
};

const sameHeading = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

/**
 * Maps headings to our columns: as chosen, else of the same name, else as commonly headed. Throws
 * ImportFileError where a choice names a heading or a column that there is not, or, unless `complete` is
 * false, where a required column is missing.
 */
export const mapColumns = (table: Table, options: ImportOptions, complete = true): Mapping => {
  const warnings: string[] = [];
  const ours = ourColumns[options.as];
  for (const [theirs, our] of Object.entries(options.map)) {
    if (
      !table.headings.some(heading => sameHeading(heading, theirs)) &&
      !table.likeOthers.has(plainWord(theirs))
    )
      throw new ImportFileError(
        `There is no heading "${theirs}"; the file has ${table.headings.map(h => `"${h}"`).join(', ')}.`,
      );
    if (our !== null && !ours.some(column => column.name === our))
      throw new ImportFileError(
        `"${our}" is not one of our columns; they are ${ours.map(column => column.name).join(', ')}.`,
      );
  }
  const chosen = table.headings.map(heading =>
    Object.entries(options.map).find(([theirs]) => sameHeading(theirs, heading)),
  );
  const texts = textsUnder(table);
  const taken = new Set(chosen.flatMap(entry => (entry?.[1] ? [entry[1]] : [])));
  const isOurs = exportsAlone.every(ours => table.headings.some(heading => sameHeading(heading, ours)));
  const isRead = table.headings.map(
    (heading, index) => !chosen[index] && !(isOurs && notReadBack.has(heading.trim().toLowerCase())),
  );
  const byHeading = table.headings.map((heading, index): RecognisedHeading[] => {
    if (!isRead[index]) return [];
    const found = recogniseHeadings(options.as, heading);
    const names = found.map(({ ours: name }) => name);
    const state = options.as === 'lot' && !isOurs ? stateMeant(heading, names, texts[index] ?? []) : null;
    if (state !== null) return [{ ours: state, how: 'recognised' }];
    const isAmount =
      found.length === 0
        ? options.as !== 'reference' && amountAlone.test(heading)
        : options.as === 'lot' && amountWord.test(heading);
    if (isAmount) return [amountBehind(options.as, table.headings[index - 1] ?? '')];
    // A stranger's "lot" is more often a number in a catalogue than a lot of this collection.
    if (isOurs) return found;
    return asYesOrNo(found, texts[index] ?? []).filter(
      ({ ours: name }) =>
        name !== 'lot' &&
        // What a reference list calls "Name" is new, and is not read for names that are known.
        !(name === 'description' && options.as === 'reference' && isOfNames(heading)) &&
        (name !== 'reference' || plainWord(heading) !== 'lot' || areLotNumbers(texts[index] ?? [])),
    );
  });
  const hasNames = byHeading.some((found, index) => isOfCars(found) && !areFigures(texts[index] ?? []));
  const possible = byHeading.map((found, index) =>
    options.as === 'lot' && !isOurs && hasNames && isOfCars(found) && areFigures(texts[index] ?? [])
      ? asNumbers(found, texts[index] ?? [])
      : found,
  );
  /** What a condition is told in sentences for is no grade. */
  const areRemarks = (ours: string, index: number): boolean =>
    ours === 'grade' && options.as !== 'reference' && areSentences(texts[index] ?? []);
  const recognised: (RecognisedHeading | null)[] = table.headings.map(() => null);
  const assign = (isTurn: (found: RecognisedHeading[]) => boolean) =>
    possible.forEach((found, index) => {
      if (recognised[index] || found.length === 0 || !isTurn(found)) return;
      const free = found.filter(({ ours: name }) => !taken.has(name));
      const best = likeliest(free, texts[index] ?? [], table.colours);
      if (best && areRemarks(best.ours, index)) recognised[index] = { ...best, ours: 'notes' };
      else if (
        best &&
        (best.ours !== 'description' ||
          best.how === 'same name' ||
          isDescribed(texts[index] ?? [], table.colours))
      ) {
        taken.add(best.ours);
        recognised[index] = best;
      } else if (found.some(({ ours: name }) => name === 'notes')) {
        recognised[index] = found.find(({ ours: name }) => name === 'notes') ?? null;
      } else if (found[0] && taken.has(found[0].ours)) {
        const warning = `"${table.headings[index]}" is not read, since another column already gives ${found[0].ours}.`;
        if (!warnings.includes(warning)) warnings.push(warning);
      }
    });
  // What can mean one thing only goes first, so that the others take what is left.
  assign(([first]) => first?.how === 'same name');
  assign(found => found.length === 1);
  assign(() => true);
  // Words in a heading prove little: only what the cells do not speak against.
  possible.forEach((exact, index) => {
    if (exact.length > 0 || !isRead[index]) return;
    const meanings = asYesOrNo(
      meaningsByWords(options.as, table.headings[index] ?? '').map(ours => ({ ours })),
      texts[index] ?? [],
    ).map(({ ours: name }) => name);
    if (meanings.some(name => areRemarks(name, index))) {
      recognised[index] = { ours: 'notes', how: 'recognised' };
      return;
    }
    const free = meanings
      .filter(name => !taken.has(name) && mayBe(name, texts[index] ?? []))
      .map((name): RecognisedHeading => ({ ours: name, how: 'recognised' }));
    const found = likeliest(free, texts[index] ?? []);
    if (!found) return;
    const isText =
      found.ours === 'casting' && !taken.has('description') && isDescribed(texts[index] ?? [], table.colours);
    const best = isText ? { ...found, ours: 'description' } : found;
    taken.add(best.ours);
    recognised[index] = best;
  });
  const guessed = guessColumns(table, options.as, taken, index => !recognised[index] && !chosen[index]);
  const columns = table.headings.map((heading, index): ColumnView => {
    const entry = chosen[index];
    const guess = index === table.section && !taken.has('description') ? 'description' : guessed.get(index);
    const found = recognised[index] ?? (guess ? { ours: guess, how: 'by its cells' as const } : null);
    return {
      index,
      heading,
      ours: entry ? entry[1] : (found?.ours ?? null),
      how: entry ? (entry[1] ? 'chosen' : 'not used') : (found?.how ?? 'not used'),
      decimal: null,
      dateOrder: null,
      samples: [],
    };
  });
  const places = new Map<string, number>();
  const moreNotes: number[] = [];
  for (const { ours: name, index } of columns) {
    if (name === null) continue;
    if (!places.has(name)) places.set(name, index);
    else if (name === 'notes') moreNotes.push(index);
    else
      throw new ImportFileError('Two headings are mapped to the same column of ours; map one of them only.');
  }
  // A text that describes a car or a sale may say all that a row must have.
  const missing = places.has('description')
    ? []
    : ours.filter(
        ({ name, required }) =>
          required && !places.has(name) && !(name === 'sold_on' && options.ofAll?.soldOn !== undefined),
      );
  if (complete && isSideways(table, options.as))
    throw new MissingColumnError(
      'The headings seem to be in the first column, with one car in each column behind it. Turn the table in your spreadsheet (copy it, then paste it transposed), so that each car is a row, and import it again.',
    );
  if (complete && missing.length)
    throw new MissingColumnError(
      `No column gives ${missing.map(column => `${column.name} (${column.help})`).join(' and ')}. ` +
        (table.headingLine === 0
          ? 'The file has no headings that could be found: say what its columns are.'
          : `The headings on line ${table.headingLine} are ${table.headings.map(h => `"${h}"`).join(', ')}: say which is meant.`),
    );
  return { columns, places, moreNotes, money: new Map(), currencies: new Map(), warnings, isOurs };
};

/** Takes in the headings that have come to a table since it was mapped; what was mapped stays as it is. */
export const widenMapping = (mapping: Mapping, table: Table, options: ImportOptions): void => {
  const wide = mapColumns(table, options, false);
  mapping.columns.push(...wide.columns.slice(mapping.columns.length));
  mapping.moreNotes = wide.moreNotes;
  for (const [ours, place] of wide.places) if (!mapping.places.has(ours)) mapping.places.set(ours, place);
  mapping.warnings.push(...wide.warnings.filter(warning => !mapping.warnings.includes(warning)));
};
