import { looksLikeCurrency } from '../../../valuation/reading/currency.ts';
import { ImportFileError } from '../types.ts';
import { isTooLong, longCell, type XmlEvent, xmlEvents } from './xml.ts';
import { type ZipEntry, zipEntries, zipText } from './zip.ts';

/** What all sheets of a workbook share. */
export interface Book {
  sheets: { name: string; entry: ZipEntry; hidden: boolean }[];
  texts: string[];
  /** For each cell style, how it shows its number. */
  styles: CellStyle[];
  /** True where days are counted from 1904 on. */
  from1904: boolean;
}

/**
 * How a cell shows its number: as a date or a time, as a share of a hundred, or with the sign of a currency.
 */
export interface CellStyle {
  date: boolean;
  /** A date's format that shows hours or seconds, and neither its day nor its year. */
  time: boolean;
  percent: boolean;
  sign: string | null;
}

/** Characters of shared text, and texts, that are kept in memory at most. */
const mostText = 100_000_000;
const mostTexts = 4_000_000;

const builtInDates = new Set(
  [14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47].concat(
    Array.from({ length: 10 }, (_, i) => 27 + i),
    Array.from({ length: 9 }, (_, i) => 50 + i),
  ),
);

/** True for a number format such as `yyyy-mm-dd`; colours, literal text and escapes in it do not count. */
export const isDateFormat = (format: string): boolean =>
  /[dmyhs]/i.test(format.replace(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]/g, '').replace(/general/gi, ''));

const builtInTimes = new Set([18, 19, 20, 21, 45, 46, 47]);

/** True for a format such as `hh:mm` or `[h]:mm`, of a time of day or a span of hours. */
export const isTimeFormat = (format: string): boolean => {
  const shown = format.replace(/"[^"]*"|\\.|_.|\*./g, '');
  const letters = shown.replace(/\[(?!(?:h+|m+|s+)\])[^\]]*\]/gi, '').replace(/general/gi, '');
  return /[hs]|\[m+\]/i.test(letters) && !/[dy]/i.test(letters);
};

export const plainStyle: CellStyle = { date: false, time: false, percent: false, sign: null };
const builtInPercents = new Set([9, 10]);

const isPercentFormat = (format: string): boolean => format.replace(/"[^"]*"|\\./g, '').includes('%');

/**
 * The currency sign of a number format such as `#,##0.00 "€"`, `[$kr-41D] #,##0` or `"USD" 0.00`; null
 * where it shows none.
 */
export const signOfFormat = (format: string): string | null => {
  const [positive = ''] = format.split(';');
  const bracketed = /\[\$([^\]-]+)(?:-[^\]]*)?\]/.exec(positive)?.[1]?.trim();
  if (bracketed) return bracketed;
  const literal = positive.replace(/\[[^\]]*\]|[_*]./g, '').match(/"[^"]*"|\\./g) ?? [];
  for (const text of literal) {
    const shown = text.replace(/^"|"$|^\\/g, '').trim();
    if (looksLikeCurrency(shown)) return shown;
  }
  return /\p{Sc}/u.exec(positive.replace(/"[^"]*"|\\.|\[[^\]]*\]/g, ''))?.[0] ?? null;
};

const each = async (entry: ZipEntry | undefined, see: (event: XmlEvent) => void): Promise<void> => {
  if (!entry) return;
  for await (const events of xmlEvents(zipText(entry))) for (const event of events) see(event);
};

const readTexts = async (entry: ZipEntry | undefined): Promise<string[]> => {
  const texts: string[] = [];
  let own = '';
  let inText = false;
  let phonetic = 0;
  let characters = 0;
  await each(entry, event => {
    if (event.is === 'text') {
      if (inText && phonetic === 0) own += event.text;
      if (isTooLong(own)) throw longCell();
      return;
    }
    const opens = event.is === 'open';
    if (event.name === 'si' && opens) own = '';
    else if (event.name === 'si') {
      texts.push(own);
      characters += own.length;
      if (characters > mostText || texts.length > mostTexts)
        throw new ImportFileError('This spreadsheet holds too much text. Save it as .csv and import that.');
    } else if (event.name === 't') inText = opens;
    else if (event.name === 'rPh') phonetic += opens ? 1 : -1;
  });
  return texts;
};

const readStyles = async (entry: ZipEntry | undefined): Promise<CellStyle[]> => {
  const formats = new Map<number, string>();
  const styles: CellStyle[] = [];
  let inCells = false;
  await each(entry, event => {
    if (event.is === 'text') return;
    if (event.name === 'cellXfs') inCells = event.is === 'open';
    if (event.is !== 'open') return;
    if (event.name === 'numFmt')
      formats.set(Number(event.attributes.numFmtId), event.attributes.formatCode ?? '');
    if (event.name === 'xf' && inCells) {
      const id = Number(event.attributes.numFmtId ?? 0);
      const format = formats.get(id);
      if (format === undefined)
        styles.push({
          ...plainStyle,
          date: builtInDates.has(id),
          time: builtInTimes.has(id),
          percent: builtInPercents.has(id),
        });
      else
        styles.push({
          date: isDateFormat(format) || isTimeFormat(format),
          time: isTimeFormat(format),
          percent: isPercentFormat(format),
          sign: signOfFormat(format),
        });
    }
  });
  return styles;
};

/** Opens a workbook: its sheets by name and in order, its shared texts and its styles. */
export const openBook = async (file: Blob): Promise<Book> => {
  const entries = await zipEntries(file);
  const targets = new Map<string, string>();
  await each(entries.get('xl/_rels/workbook.xml.rels'), event => {
    if (event.is !== 'open' || event.name !== 'Relationship') return;
    const target = event.attributes.Target ?? '';
    targets.set(event.attributes.Id ?? '', target.startsWith('/') ? target.slice(1) : `xl/${target}`);
  });
  const sheets: Book['sheets'] = [];
  let from1904 = false;
  const book = entries.get('xl/workbook.xml');
  if (!book)
    throw new ImportFileError(
      'This file is not a spreadsheet that can be read here. Save it as .xlsx or .csv and import that.',
    );
  await each(book, event => {
    if (event.is !== 'open') return;
    if (event.name === 'workbookPr') from1904 = /^(1|true)$/.test(event.attributes.date1904 ?? '');
    if (event.name !== 'sheet') return;
    const relation = Object.entries(event.attributes).find(([name]) => /(^|:)id$/.test(name))?.[1];
    const entry = entries.get(targets.get(relation ?? '') ?? '');
    if (entry)
      sheets.push({
        name: event.attributes.name ?? `Sheet ${sheets.length + 1}`,
        entry,
        hidden: /hidden/i.test(event.attributes.state ?? ''),
      });
  });
  return {
    sheets,
    texts: await readTexts(entries.get('xl/sharedStrings.xml')),
    styles: await readStyles(entries.get('xl/styles.xml')),
    from1904,
  };
};
