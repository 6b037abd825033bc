import { accessSync, constants, openAsBlob, statSync } from 'node:fs';
import { basename } from 'node:path';
import { Refused } from '../terminal.ts';

/** Read piece by piece as the import goes on, however large it is. */
export const fileAt = async (path: string): Promise<File> => {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) throw new Refused(`There is no file ${path}.`);
  if (found.isDirectory()) throw new Refused(`${path} is a folder. Name the spreadsheet in it.`);
  if (!found.isFile()) throw new Refused(`${path} is not a file that can be imported.`);
  try {
    accessSync(path, constants.R_OK);
  } catch {
    throw new Refused(`${path} cannot be read by you. Change its permissions, or copy it.`);
  }
  return new File([await openAsBlob(path)], basename(path));
};
