import { SaxesParser } from 'saxes';
import { ImportFileError } from '../types.ts';

export type XmlEvent =
  | { is: 'open'; name: string; attributes: Record<string, string> }
  | { is: 'text'; text: string }
  | { is: 'close'; name: string };

const local = (name: string): string => name.slice(name.indexOf(':') + 1);

/** Characters of one text or one tag at most. */
const longestPiece = 2_000_000;

/** What to say of a cell that is longer than any program's. */
export const longCell = (line?: number): ImportFileError =>
  new ImportFileError(
    `${line === undefined ? 'This spreadsheet' : `Line ${line} of this sheet`} has a cell of more than ${longestPiece / 1_000_000} million characters, which cannot be read. Shorten it, or save the sheet as .csv and import that.`,
  );

/** True for a text that has grown beyond what one cell may hold. */
export const isTooLong = (text: string): boolean => text.length > longestPiece;

/**
 * The events of an XML text, piece by piece; names come without their prefix. Throws ImportFileError
 * where it is no XML.
 */
export const xmlEvents = async function* (pieces: AsyncIterable<string>): AsyncGenerator<XmlEvent[]> {
  const parser = new SaxesParser();
  let events: XmlEvent[] = [];
  let failure: Error | null = null;
  parser.on('error', error => {
    failure ??= error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    events.push({ is: 'open', name: local(name), attributes: attributes as Record<string, string> });
  });
  parser.on('text', text => {
    events.push({ is: 'text', text });
  });
  parser.on('cdata', text => {
    events.push({ is: 'text', text });
  });
  parser.on('closetag', ({ name }) => {
    events.push({ is: 'close', name: local(name) });
  });
  const refuse = () => {
    if (failure)
      throw new ImportFileError(
        `This file cannot be read as a spreadsheet (${failure.message}). Open it in a spreadsheet program, save it as .xlsx or .csv, and import that.`,
      );
  };
  // The parser holds a text or a tag until its end: one that does not end must not fill the memory.
  let held = 0;
  for await (const piece of pieces) {
    parser.write(piece);
    refuse();
    held = events.length === 0 ? held + piece.length : 0;
    if (held > longestPiece) throw longCell();
    if (events.length === 0) continue;
    yield events;
    events = [];
  }
  parser.close();
  refuse();
  if (events.length > 0) yield events;
};
