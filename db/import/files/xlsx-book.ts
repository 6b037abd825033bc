import { ImportFileError } from '../types.ts';
import { type XmlEvent, xmlEvents } from './xml.ts';
import { type ZipEntry, zipEntries, zipText } from './zip.ts';

/** What all sheets of a workbook share. */
export interface Book {
  file: Blob;
  sheets: { name: string; entry: ZipEntry }[];
  texts: string[];
  /** For each cell style, whether it shows its number as a date. */
  dateStyles: boolean[];
  /** True where days are counted from 1904 on. */
  from1904: boolean;
}

/** Characters of shared text that are kept in memory at most. */
const mostText = 300_000_000;

const builtInDates = new Set(
  [14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47].concat(
    Array.from({ length: 10 }, (_, i) => 27 + i),
    Array.from({ length: 9 }, (_, i) => 50 + i),
  ),
);

/** True for a number format such as `yyyy-mm-dd`; colours, literal text and escapes in it do not count. */
export const isDateFormat = (format: string): boolean =>
  /[dmyhs]/i.test(format.replace(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]/g, '').replace(/general/gi, ''));

const each = async (
  file: Blob,
  entry: ZipEntry | undefined,
  see: (event: XmlEvent) => void,
): Promise<void> => {
  if (!entry) return;
  for await (const events of xmlEvents(zipText(file, entry))) for (const event of events) see(event);
};

const readTexts = async (file: Blob, entry: ZipEntry | undefined): Promise<string[]> => {
  const texts: string[] = [];
  let own = '';
  let inText = false;
  let phonetic = 0;
  let characters = 0;
  await each(file, entry, event => {
    if (event.is === 'text') {
      if (inText && phonetic === 0) own += event.text;
      return;
    }
    const opens = event.is === 'open';
    if (event.name === 'si' && opens) own = '';
    else if (event.name === 'si') {
      texts.push(own);
      characters += own.length;
      if (characters > mostText)
        throw new ImportFileError('This spreadsheet holds too much text. Save it as .csv and import that.');
    } else if (event.name === 't') inText = opens;
    else if (event.name === 'rPh') phonetic += opens ? 1 : -1;
  });
  return texts;
};

const readDateStyles = async (file: Blob, entry: ZipEntry | undefined): Promise<boolean[]> => {
  const formats = new Map<number, string>();
  const styles: boolean[] = [];
  let inCells = false;
  await each(file, entry, event => {
    if (event.is === 'text') return;
    if (event.name === 'cellXfs') inCells = event.is === 'open';
    if (event.is !== 'open') return;
    if (event.name === 'numFmt')
      formats.set(Number(event.attributes.numFmtId), event.attributes.formatCode ?? '');
    if (event.name === 'xf' && inCells) {
      const id = Number(event.attributes.numFmtId ?? 0);
      const format = formats.get(id);
      styles.push(format === undefined ? builtInDates.has(id) : isDateFormat(format));
    }
  });
  return styles;
};

/** Opens a workbook: its sheets by name and in order, its shared texts and its date styles. */
export const openBook = async (file: Blob): Promise<Book> => {
  const entries = await zipEntries(file);
  const targets = new Map<string, string>();
  await each(file, entries.get('xl/_rels/workbook.xml.rels'), event => {
    if (event.is !== 'open' || event.name !== 'Relationship') return;
    const target = event.attributes.Target ?? '';
    targets.set(event.attributes.Id ?? '', target.startsWith('/') ? target.slice(1) : `xl/${target}`);
  });
  const sheets: Book['sheets'] = [];
  let from1904 = false;
  const book = entries.get('xl/workbook.xml');
  if (!book)
    throw new ImportFileError(
      'This file is no spreadsheet that can be read here. Save it as .xlsx or .csv and import that.',
    );
  await each(file, book, event => {
    if (event.is !== 'open') return;
    if (event.name === 'workbookPr') from1904 = /^(1|true)$/.test(event.attributes.date1904 ?? '');
    if (event.name !== 'sheet') return;
    const relation = Object.entries(event.attributes).find(([name]) => /(^|:)id$/.test(name))?.[1];
    const entry = entries.get(targets.get(relation ?? '') ?? '');
    if (entry) sheets.push({ name: event.attributes.name ?? `Sheet ${sheets.length + 1}`, entry });
  });
  return {
    file,
    sheets,
    texts: await readTexts(file, entries.get('xl/sharedStrings.xml')),
    dateStyles: await readDateStyles(file, entries.get('xl/styles.xml')),
    from1904,
  };
};
