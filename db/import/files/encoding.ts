import { isAscii } from 'node:buffer';
import type { Encoding } from '../types.ts';

/** An encoding with how it was found, so that it is never guessed silently. */
export interface FoundEncoding {
  encoding: Encoding;
  because: string;
  /** Bytes of the byte-order mark to pass over. */
  skip: number;
  /** Set where the file has bytes that mean nothing in it: how many there are, and the line of the first. */
  spoilt?: { bytes: number; line: number };
}

/** The single bytes of Windows-1252 that stand for no character. */
const undefinedInWindows1252 = new Set([0x81, 0x8d, 0x8f, 0x90, 0x9d]);

const newlinesIn = (chunk: Uint8Array): number => {
  let count = 0;
  for (let at = chunk.indexOf(10); at >= 0; at = chunk.indexOf(10, at + 1)) count++;
  return count;
};

/** What a whole file is, read as UTF-8 and as single bytes. */
const lookThrough = async (file: Blob) => {
  const decoder = new TextDecoder('utf-8');
  const seen = { plain: true, undefinedBytes: 0, beyondAscii: 0, bad: 0, firstBad: 0 };
  let line = 1;
  /** Letter by letter, which only a file with letters beyond ASCII needs. */
  const count = (text: string) => {
    for (let i = 0; i < text.length; i++) {
      const code = text.charCodeAt(i);
      if (code === 10) line++;
      else if (code === 0xfffd) {
        if (seen.bad++ === 0) seen.firstBad = line;
      } else if (code > 127) seen.beyondAscii++;
    }
  };
  let isBroken = false;
  for await (const chunk of file.stream()) {
    // A letter may be divided between two chunks.
    if (!isBroken && isAscii(chunk)) {
      if (seen.bad === 0) line += newlinesIn(chunk);
      continue;
    }
    seen.plain = false;
    for (const byte of chunk) if (undefinedInWindows1252.has(byte)) seen.undefinedBytes++;
    count(decoder.decode(chunk, { stream: true }));
    isBroken = (chunk.at(-1) ?? 0) > 127;
  }
  count(decoder.decode());
  return seen;
};

/**
 * Tells UTF-8, UTF-16 and Windows-1252 apart by reading the whole file: a byte-order mark, else zero bytes in
 * every second place, else UTF-8 where it is valid or has more letters that are valid in it than bytes that
 * are not, else Windows-1252.
 */
export const findEncoding = async (file: Blob): Promise<FoundEncoding> => {
  const head = new Uint8Array(await file.slice(0, 4096).arrayBuffer());
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) {
    const { bad, firstBad } = await lookThrough(file);
    const found = { encoding: 'utf-8' as const, because: 'it begins with the UTF-8 mark', skip: 3 };
    return bad ? { ...found, spoilt: { bytes: bad, line: firstBad } } : found;
  }
  if (head[0] === 0xff && head[1] === 0xfe)
    return { encoding: 'utf-16le', because: 'it begins with the UTF-16 mark', skip: 2 };
  if (head[0] === 0xfe && head[1] === 0xff)
    return { encoding: 'utf-16be', because: 'it begins with the UTF-16 mark', skip: 2 };
  const zeros = { even: 0, odd: 0 };
  for (let i = 0; i < head.length; i++) if (head[i] === 0) i % 2 === 0 ? zeros.even++ : zeros.odd++;
  if (zeros.odd > head.length / 5 && zeros.even * 10 < zeros.odd)
    return { encoding: 'utf-16le', because: 'every second byte is zero', skip: 0 };
  if (zeros.even > head.length / 5 && zeros.odd * 10 < zeros.even)
    return { encoding: 'utf-16be', because: 'every second byte is zero', skip: 0 };

  const { plain, undefinedBytes, beyondAscii, bad, firstBad } = await lookThrough(file);
  if (bad === 0)
    return { encoding: 'utf-8', because: plain ? 'it is plain ASCII' : 'it is valid UTF-8', skip: 0 };
  if (beyondAscii > bad)
    return {
      encoding: 'utf-8',
      because: 'most of its accented letters are UTF-8',
      skip: 0,
      spoilt: { bytes: bad, line: firstBad },
    };
  return {
    encoding: 'windows-1252',
    because: undefinedBytes
      ? `it is not valid UTF-8; ${undefinedBytes} bytes have no meaning in Windows-1252 either, look at the preview closely`
      : 'it is not valid UTF-8',
    skip: 0,
  };
};

/** The text of a file, piece by piece. */
export const text = async function* (
  file: Blob,
  { encoding, skip }: Pick<FoundEncoding, 'encoding' | 'skip'>,
): AsyncGenerator<string> {
  const decoder = new TextDecoder(encoding);
  for await (const chunk of file.slice(skip).stream()) yield decoder.decode(chunk, { stream: true });
  yield decoder.decode();
};

/** The whole text of a file, or of a part of one that fits into memory. */
export const wholeText = async (
  file: Blob,
  encoding: Pick<FoundEncoding, 'encoding' | 'skip'>,
): Promise<string> => {
  let whole = '';
  for await (const piece of text(file, encoding)) whole += piece;
  return whole;
};
