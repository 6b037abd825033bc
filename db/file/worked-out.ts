import { existsSync, readFileSync, rmSync, statSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
import { sha256Of, writeWhole } from './files.ts';
import { layout } from './layout.ts';

/**
 * What was worked out of a collection, in a file beside it, by names. It is no part of the collection: it says of what
 * content it was made, is of use to nobody else, and may be removed at any time.
 */
export type WorkedOut = Map<string, Uint8Array>;

interface Header {
  key: string;
  sections: { name: string; length: number }[];
  sha256: string;
}

const endOfHeader = 10;
const small = 100_000;

/** What actions have made of the collection: their number, the newest, and which are undone. */
export const historyText = (sqlite: Database): string =>
  JSON.stringify(
    sqlite
      .prepare(
        `SELECT count(*) AS actions, total(undone) AS undone, total(undone * id) AS which,
           (SELECT json_array(id, label, made_at) FROM change ORDER BY id DESC LIMIT 1) AS newest FROM change`,
      )
      .get(),
  );

/**
 * The collection's file as it is in its folder, which nothing can write without leaving another time or size. Its bytes are
 * not read: that would drop the locks of a process that has it open.
 */
export const fileText = (dir: string): string => {
  const { size, mtimeNs } = statSync(layout(dir).database, { bigint: true });
  return `${size} ${mtimeNs}`;
};

const parts = (bytes: Buffer, key: string): WorkedOut | null => {
  const end = bytes.indexOf(endOfHeader);
  const header: Header = JSON.parse(bytes.subarray(0, Math.max(0, end)).toString());
  const data = bytes.subarray(end + 1);
  if (header.key !== key || header.sha256 !== sha256Of(data)) return null;
  let at = 0;
  return new Map(
    header.sections.map(({ name, length }) => {
      at += length;
      const section = data.subarray(at - length, at);
      // What is small holds nothing of what is large, which goes sooner.
      return [name, length < small ? Buffer.from(section) : section];
    }),
  );
};

/** What was worked out of what `key` names; null where there is none, and what is of another key or damaged is removed. */
export const readWorkedOut = (dir: string, key: string): WorkedOut | null => {
  const { workedOut } = layout(dir);
  try {
    if (!existsSync(workedOut)) return null;
    const found = parts(readFileSync(workedOut), key);
    if (found) return found;
  } catch {
    // Cut short, or not ours: as if there were none.
  }
  removeWorkedOut(dir);
  return null;
};

const removeWorkedOut = (dir: string): void => {
  try {
    rmSync(layout(dir).workedOut, { force: true });
  } catch {
    // In a folder that takes no changes it stays, and is of no use.
  }
};

/**
 * Saves what was worked out of the collection in a folder that nobody has open, for the next who opens it. Where that
 * cannot be, it is worked out again.
 */
export const writeWorkedOut = (dir: string, key: string, sections: WorkedOut): void => {
  const data = Buffer.concat([...sections.values()]);
  const header: Header = {
    key,
    sections: Array.from(sections, ([name, { length }]) => ({ name, length })),
    sha256: sha256Of(data),
  };
  try {
    writeWhole(layout(dir).workedOut, Buffer.concat([Buffer.from(`${JSON.stringify(header)}\n`), data]));
  } catch {
    // A full disk, or a folder that takes no changes.
    removeWorkedOut(dir);
  }
};
