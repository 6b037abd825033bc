import { Writable } from 'node:stream';
import { readSetting } from '../../../db/records/collection/settings.ts';
import type { DataTable, TableFormat } from '../../../reports/tables/data-table.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

/**
 * A table as the bytes of a file, dated by the day and not the hour. What writes spreadsheets is loaded when
 * first asked for.
 */
export const tableBytes = async (
  session: Session,
  table: DataTable,
  format: TableFormat,
  signal: AbortSignal,
): Promise<Uint8Array> => {
  const pieces: Buffer[] = [];
  const to = new Writable({
    write(piece: Buffer | string, _encoding, done) {
      pieces.push(Buffer.from(piece));
      done();
    },
  });
  const { writeTable } = await import('../../../reports/tables/write-table.ts');
  const creator = (await readSetting(openOf(session).read.db, 'owner')) ?? '';
  const made = new Date(session.options.stampedAt ?? `${await session.today()}T00:00:00Z`);
  await writeTable(table, format, to, { creator, made, signal });
  return Buffer.concat(pieces);
};
