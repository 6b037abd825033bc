import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { preparedInsert } from '../../../db/prepared-insert.ts';

/** A table whose defaults are a text, a number, a list, an expression, and nothing. */
const table = () => {
  const sqlite = new Sqlite(':memory:');
  sqlite.exec(`CREATE TABLE lot (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL DEFAULT '', state TEXT NOT NULL DEFAULT 'it''s kept',
    cars INTEGER NOT NULL DEFAULT 0, words TEXT NOT NULL DEFAULT '[]', share REAL DEFAULT 0.5,
    made TEXT NOT NULL DEFAULT (lower('A')), notes TEXT
  ) STRICT`);
  return sqlite;
};
const own = { name: '', state: "it's kept", cars: 0, words: '[]', share: 0.5, made: 'a', notes: null };
const other = { name: 'Tin', state: 'sold', cars: 3, words: '["a"]', share: null, made: 'b', notes: 'dusty' };
type Row = Record<keyof typeof own, string | number | null>;

test('rows are saved as they are given, whichever of their values are the table’s own', () => {
  const sqlite = table();
  const insert = preparedInsert(sqlite, 'lot');
  const columns = Object.keys(own) as (keyof Row)[];
  const rows = Array.from({ length: 2 ** columns.length }, (_, mask) =>
    Object.fromEntries(columns.map((column, i) => [column, mask & (2 ** i) ? other[column] : own[column]])),
  );
  const ids = rows.map(row => insert(row));
  expect(ids).toEqual(rows.map((_, i) => i + 1));
  expect(sqlite.prepare(`SELECT ${columns.join()} FROM lot ORDER BY id`).all()).toEqual(rows);
});

test('a value that the table does not take is refused, though it has one of its own', () => {
  const insert = preparedInsert(table(), 'lot');
  insert(own);
  expect(() => insert({ ...own, name: null })).toThrow('NOT NULL constraint failed: lot.name');
});
