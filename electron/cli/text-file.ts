import { openAsBlob, statSync } from 'node:fs';
import { findEncoding } from '../../db/import/files/encoding.ts';
import { Refused } from './terminal.ts';

const maxBytes = 5_000_000;

/**
 * The text of a file, in the encoding that its bytes show. Throws where it is missing, no file, or too large.
 */
export const textOf = async (path: string): Promise<string> => {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) throw new Refused(`There is no file ${path}.`);
  if (!found.isFile()) throw new Refused(`${path} is not a text file.`);
  if (found.size > maxBytes * 2) throw new Refused(`${path} is too large; divide it into files of 5 MB.`);
  const blob = await openAsBlob(path);
  const { encoding, skip } = await findEncoding(blob);
  return new TextDecoder(encoding).decode(await blob.slice(skip).arrayBuffer());
};
