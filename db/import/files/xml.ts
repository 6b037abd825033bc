import { SaxesParser } from 'saxes';
import { ImportFileError } from '../types.ts';

export type XmlEvent =
  | { is: 'open'; name: string; attributes: Record<string, string> }
  | { is: 'text'; text: string }
  | { is: 'close'; name: string };

const local = (name: string): string => name.slice(name.indexOf(':') + 1);

/** The events of an XML text, piece by piece; names come without their prefix. Throws ImportFileError where it is no XML. */
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
  for await (const piece of pieces) {
    parser.write(piece);
    refuse();
    if (events.length === 0) continue;
    yield events;
    events = [];
  }
  parser.close();
  refuse();
  if (events.length > 0) yield events;
};
