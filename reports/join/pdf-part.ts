import { isDictionary, isReference, type PdfDictionary, type PdfValue, parseValue } from './pdf-values.ts';

/** One indirect object: its value and, where it has one, the bytes of its stream. */
export interface PdfObject {
  value: PdfValue;
  stream: Buffer | null;
}

/** A PDF as Typst writes it (one table of cross-references, no object streams), read object by object. */
export interface PdfPart {
  numbers: number[];
  object(number: number): PdfObject;
  trailer: PdfDictionary;
}

const wrong = (what: string): Error => new Error(`A part of the report is not written as expected: ${what}`);

/** Where each object begins, by its number. */
const placesOf = (table: string): Map<number, number> => {
  const places = new Map<number, number>();
  const head = /^xref\s+0\s+(\d+)\s+/.exec(table);
  if (!head) throw wrong('its table of objects');
  const lines = table.slice(head[0].length).matchAll(/(\d{10}) (\d{5}) ([nf])/g);
  let number = 0;
  for (const [, place, , kind] of lines) {
    if (number >= Number(head[1])) break;
    if (kind === 'n') places.set(number, Number(place));
    number += 1;
  }
  return places;
};

/** Opens a part; throws Error where it is written otherwise than expected. */
export const readPart = (pdf: Buffer): PdfPart => {
  const tail = pdf.subarray(-64).toString('latin1');
  const start = Number(/startxref\s+(\d+)/.exec(tail)?.[1] ?? Number.NaN);
  if (Number.isNaN(start)) throw wrong('its end');
  const table = pdf.subarray(start).toString('latin1');
  const places = placesOf(table);
  const { value: trailer } = parseValue(table, table.lastIndexOf('trailer') + 'trailer'.length);
  if (!isDictionary(trailer)) throw wrong('its trailer');
  const starts = [...places.values()].sort((a, b) => a - b);
  const ends = new Map(starts.map((place, i) => [place, starts[i + 1] ?? start]));
  return {
    trailer,
    numbers: [...places.keys()],
    object(number) {
      const from = places.get(number);
      if (from === undefined) throw wrong(`object ${number} is missing`);
      const bytes = pdf.subarray(from, ends.get(from));
      const streamAt = bytes.indexOf('\nstream\n');
      const text = bytes.subarray(0, streamAt < 0 ? bytes.length : streamAt).toString('latin1');
      const { value } = parseValue(text, text.indexOf('obj') + 3);
      if (streamAt < 0 || !isDictionary(value)) return { value, stream: null };
      const length = Number(value.get('Length'));
      if (!Number.isInteger(length)) throw wrong(`the length of object ${number}`);
      const begin = streamAt + '\nstream\n'.length;
      return { value, stream: bytes.subarray(begin, begin + length) };
    },
  };
};

export const dictionaryOf = (part: PdfPart, value: PdfValue | undefined): PdfDictionary => {
  const found = isReference(value) ? part.object(value.ref).value : value;
  if (!isDictionary(found)) throw wrong('a dictionary is missing');
  return found;
};

export const arrayOf = (part: PdfPart, value: PdfValue | undefined): PdfValue[] => {
  if (value === undefined) return [];
  const found = isReference(value) ? part.object(value.ref).value : value;
  if (!Array.isArray(found)) throw wrong('a list is missing');
  return found;
};

/** The number of the object that a value refers to. */
export const numberOf = (value: PdfValue | undefined): number => {
  if (!isReference(value)) throw wrong('a reference is missing');
  return value.ref;
};
