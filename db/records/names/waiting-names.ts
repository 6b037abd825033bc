import type { Kysely } from 'kysely';
import { groupNames } from '../../../valuation/reading/names/group-names.ts';
import { readYear } from '../../../valuation/reading/words.ts';
import { readTexts } from '../../codec.ts';
import { plain } from '../../reference/plain.ts';
import { partedNames, settledNames } from '../../reference/settled-names.ts';
import type { Schema } from '../../schema.ts';
import { hasOpenFinish, readUnread, type UnreadText } from '../unread.ts';
import { namesOfUnread } from './names-unread.ts';

/**
 * A text that names a car and that the reference does not know, with the cars and sale records
 * that wait for it.
 */
export interface WaitingText {
  /** As it is written most often. */
  text: string;
  carIds: number[];
  /** Those of the cars that lack nothing else for a value: not sold, no finish to settle, no figure of the owner's. */
  lackingIds: number[];
  saleIds: number[];
  /** Years that the rows give, each once, rising. */
  years: number[];
  /** The maker and the series that the rows give, where none gives another. */
  maker: string | null;
  series: string | null;
}

/** Spellings of what is taken for one name. */
export interface WaitingGroup extends WaitingText {
  texts: WaitingText[];
}

interface WaitingRow {
  /** Its place among all rows. */
  at: number;
  carId?: number;
  /** Of a car, whether its name alone keeps it from a value. */
  isLacking?: boolean;
  saleId?: number;
  written: Record<string, string>;
  /** Of a sale record, the texts that were not understood. */
  unread?: UnreadText[];
}

/** The text that names the car, among what was written of it. */
export const nameWritten = (written: Record<string, string>): string =>
  (written.casting ?? '').trim() || (written.release_name ?? '').trim();

/** 1 where every word begins with a capital and goes on in small letters, without a comma. */
const tidy = (text: string): number => (/^(?:[\p{Lu}\p{N}][^\p{Lu},;]*(?:\s+|$))+$/u.test(text) ? 1 : 0);

/** The text that comes most often, whatever its capitals, as it is written tidiest, most often and first. */
const commonest = (texts: readonly string[]): string => {
  const most = [...Map.groupBy(texts, plain).values()].sort(
    (a, b) => b.length - a.length || Math.max(...b.map(tidy)) - Math.max(...a.map(tidy)),
  )[0];
  const writings = [...Map.groupBy(most ?? [], text => text)];
  return (
    writings.sort(([a, one], [b, other]) => tidy(b) - tidy(a) || other.length - one.length)[0]?.[0] ?? ''
  );
};

const only = (texts: readonly string[]): string | null => {
  const said = new Map(texts.filter(Boolean).map(text => [plain(text), text]));
  return said.size === 1 ? ([...said.values()][0] ?? null) : null;
};

const waitingText = (rows: WaitingRow[]): WaitingText => {
  const years = rows.flatMap(({ written }) => {
    const year = readYear(written.release_year ?? '');
    return year.ok ? [year.value] : [];
  });
  return {
    text: commonest(rows.map(({ written }) => nameWritten(written).replace(/\s+/g, ' '))),
    carIds: rows.flatMap(({ carId }) => carId ?? []).sort((a, b) => a - b),
    lackingIds: rows.flatMap(({ carId, isLacking }) => (isLacking ? (carId ?? []) : [])),
    saleIds: rows.flatMap(({ saleId }) => saleId ?? []).sort((a, b) => a - b),
    years: [...new Set(years)].sort((a, b) => a - b),
    maker: only(rows.map(({ written }) => written.maker ?? '')),
    series: only(rows.map(({ written }) => written.series ?? '')),
  };
};

const waitingRows = async (db: Kysely<Schema>): Promise<WaitingRow[]> => {
  const cars = await db
    .selectFrom('car')
    .select(['id', 'as_written', 'status', 'unread', 'own_mid_minor'])
    .where('casting_id', 'is', null)
    .where('as_written', '!=', '{}')
    .orderBy('id')
    .execute();
  // A sale of the owner's own follows its car.
  const sales = await db
    .selectFrom('sale_record')
    .select(['id', 'as_written', 'unread'])
    .where('casting_id', 'is', null)
    .where('disposal_id', 'is', null)
    .where(eb => eb.or([eb('as_written', '!=', '{}'), eb('unread', '!=', '[]')]))
    .orderBy('id')
    .execute();
  return [
    ...cars.map(row => ({
      carId: row.id,
      isLacking:
        row.status !== 'sold' && row.own_mid_minor === null && !hasOpenFinish(readUnread(row.unread)),
      written: readTexts(row.as_written),
    })),
    ...sales.map(row => ({
      saleId: row.id,
      written: readTexts(row.as_written),
      unread: readUnread(row.unread),
    })),
  ].map((row, at) => ({ ...row, at }));
};

/** The names of the reference's castings and releases, in plain text. */
const namesInReference = async (db: Kysely<Schema>): Promise<Set<string>> => {
  const castings = await db.selectFrom('casting').select('name').execute();
  const releases = await db.selectFrom('release').select('name').execute();
  return new Set([...castings, ...releases].map(({ name }) => plain(name)));
};

/** Sales without a name wait under the one that stands in what of them was not understood. */
const withNamesUnread = async (db: Kysely<Schema>, rows: WaitingRow[]): Promise<WaitingRow[]> => {
  const nameless = rows.filter(
    ({ written, unread }) => nameWritten(written) === '' && unread !== undefined && unread.length > 0,
  );
  if (nameless.length === 0) return rows;
  const written = rows.map(row => plain(nameWritten(row.written))).filter(Boolean);
  const texts = nameless.map(({ unread = [] }) => unread);
  const found = namesOfUnread(texts, written, await namesInReference(db));
  const names = new Map(nameless.map((row, at) => [row, found[at] ?? null]));
  return rows.map(row => {
    const name = names.get(row);
    return name ? { ...row, written: { ...row.written, casting: name } } : row;
  });
};

/**
 * The names of cars and of sale records that wait for the reference, like spellings together, those of most
 * cars first. What was settled to be no car does not wait.
 */
export const waitingNames = async (db: Kysely<Schema>): Promise<WaitingGroup[]> => {
  const settled = await settledNames(db);
  const rows = (await withNamesUnread(db, await waitingRows(db))).filter(({ written }) => {
    const text = plain(nameWritten(written));
    return text !== '' && settled.get(text)?.means !== 'not a car';
  });
  const ofText = Map.groupBy(rows, ({ written }) => plain(nameWritten(written)));
  return groupNames([...ofText.keys()], await partedNames(db))
    .map(texts => {
      const groups = texts.map(text => ofText.get(text) ?? []);
      const more = (a: WaitingText, b: WaitingText) =>
        b.carIds.length - a.carIds.length || b.saleIds.length - a.saleIds.length;
      return {
        ...waitingText(groups.flat().sort((a, b) => a.at - b.at)),
        texts: groups.map(waitingText).sort(more),
      };
    })
    .sort(
      (a, b) =>
        b.carIds.length - a.carIds.length ||
        b.saleIds.length - a.saleIds.length ||
        (plain(a.text) < plain(b.text) ? -1 : 1),
    );
};
