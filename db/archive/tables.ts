import { appendFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import Papa from 'papaparse';
import { type TrackedTable, tablesOf } from '../history/tracking.ts';

/**
 * Every table of a collection as CSV with a description, so that its content can be read without Playworn and
 * without SQLite: a Data Package (version 2) with a Table Schema for each table.
 */

interface FieldDescriptor {
  name: string;
  type: 'integer' | 'number' | 'string';
  constraints?: { required?: true; unique?: true };
}
interface ResourceDescriptor {
  name: string;
  path: string;
  [property: string]: unknown;
}

/** The description of the tables, as `datapackage.json` holds it. */
export interface TablesPackage {
  $schema: string;
  name: string;
  title: string;
  created: string;
  /** Of our own: the schema that the tables have. */
  playworn: { schema: number };
  resources: ResourceDescriptor[];
}

export const packageProfile = 'https://datapackage.org/profiles/2.0/datapackage.json';
/** What a CSV file of a package says of itself. */
export const csvFile = {
  type: 'table',
  format: 'csv',
  mediatype: 'text/csv',
  encoding: 'utf-8',
  dialect: { delimiter: ',', lineTerminator: '\r\n', doubleQuote: true, header: true },
} as const;

export const tableSchemaProfile = 'https://datapackage.org/profiles/2.0/tableschema.json';

const types: Record<string, FieldDescriptor['type']> = { INTEGER: 'integer', REAL: 'number', TEXT: 'string' };

interface ColumnInfo {
  name: string;
  type: string;
  notnull: 0 | 1;
  pk: number;
}

const columnsOf = (sqlite: Database, table: string): ColumnInfo[] =>
  sqlite.pragma(`table_info("${table}")`) as ColumnInfo[];

/** A text for "no value" that no cell of any table is: CSV itself knows no difference to an empty text. */
const markFor = (sqlite: Database, tables: TrackedTable[]): string => {
  const isUsed = (mark: string) =>
    tables.some(table =>
      sqlite
        .prepare(
          `SELECT 1 FROM "${table.name}" WHERE ${table.columns.map(column => `"${column.name}" = ?`).join(' OR ')} LIMIT 1`,
        )
        .get(...table.columns.map(() => mark)),
    );
  let mark = '\\N';
  while (isUsed(mark)) mark = `\\N${mark}`;
  return mark;
};

const foreignKeys = (sqlite: Database, table: string) =>
  (sqlite.pragma(`foreign_key_list("${table}")`) as { table: string; from: string; to: string | null }[]).map(
    key => ({
      fields: [key.from],
      // A table that refers to itself does not name itself.
      reference: {
        ...(key.table !== table && { resource: key.table.replaceAll('_', '-') }),
        fields: [key.to ?? 'id'],
      },
    }),
  );

const descriptorOf = (sqlite: Database, table: TrackedTable, mark: string): ResourceDescriptor => {
  const columns = columnsOf(sqlite, table.name);
  const keys = columns.filter(column => column.pk > 0).map(column => column.name);
  const references = foreignKeys(sqlite, table.name);
  return {
    name: table.name.replaceAll('_', '-'),
    path: `${table.name}.csv`,
    ...csvFile,
    schema: {
      $schema: tableSchemaProfile,
      fields: columns.map(column => ({
        name: column.name,
        type: types[column.type] ?? 'string',
        ...(column.notnull === 1 && { constraints: { required: true as const } }),
      })),
      missingValues: [mark],
      ...(keys.length > 0 && { primaryKey: keys }),
      ...(references.length > 0 && { foreignKeys: references }),
    },
  };
};

const rowsAtOnce = 2000;

/** Writes one table; reals with the 17 digits that give back the same number. */
const writeTable = (sqlite: Database, table: TrackedTable, mark: string, path: string): void => {
  const line = (rows: unknown[][]) => `${Papa.unparse(rows, { newline: '\r\n' })}\r\n`;
  writeFileSync(path, line([table.columns.map(column => column.name)]));
  const cell = (value: unknown): string => (value === null ? mark : String(value));
  let rows: string[][] = [];
  const flush = () => {
    if (rows.length > 0) appendFileSync(path, line(rows));
    rows = [];
  };
  const all = sqlite.prepare(`SELECT * FROM "${table.name}" ORDER BY rowid`).raw().safeIntegers();
  for (const row of all.iterate()) {
    rows.push((row as unknown[]).map(cell));
    if (rows.length === rowsAtOnce) flush();
  }
  flush();
};

/** Writes every table of an open database into a folder, with its description. */
export const writeTables = (sqlite: Database, folder: string, at: string): void => {
  const tables = tablesOf(sqlite);
  const mark = markFor(sqlite, tables);
  for (const table of tables) writeTable(sqlite, table, mark, join(folder, `${table.name}.csv`));
  const described: TablesPackage = {
    $schema: packageProfile,
    name: 'playworn-collection',
    title: 'A collection of Playworn, every table',
    created: at,
    playworn: { schema: sqlite.pragma('user_version', { simple: true }) as number },
    resources: tables.map(table => descriptorOf(sqlite, table, mark)),
  };
  writeFileSync(join(folder, 'datapackage.json'), `${JSON.stringify(described, null, 1)}\n`);
};

interface ReadSchema {
  fields: FieldDescriptor[];
  missingValues: string[];
}

const readCell = (text: string, { type }: FieldDescriptor, missing: string[]): unknown => {
  if (missing.includes(text)) return null;
  if (type === 'integer') return BigInt(text);
  return type === 'number' ? Number(text) : text;
};

/**
 * Fills the empty tables of a database, whose schema is the package's own, with what `writeTables` wrote.
 * Foreign keys must be off meanwhile. Throws where a table has other columns than the database, or a cell is
 * none of its type.
 */
export const readTables = (
  sqlite: Database,
  described: TablesPackage,
  textOf: (path: string) => string,
): void => {
  for (const table of tablesOf(sqlite)) sqlite.prepare(`DELETE FROM "${table.name}"`).run();
  for (const resource of described.resources) {
    const schema = resource.schema as ReadSchema;
    const table = resource.path.replace(/\.csv$/, '');
    const names = schema.fields.map(field => `"${field.name}"`);
    const insert = sqlite.prepare(
      `INSERT INTO "${table}" (${names.join(', ')}) VALUES (${names.map(() => '?').join(', ')})`,
    );
    const { data, errors } = Papa.parse<string[]>(textOf(resource.path), { delimiter: ',', newline: '\r\n' });
    const fault = errors.find(error => error.type !== 'Delimiter');
    if (fault) throw new Error(`${resource.path}: ${fault.message}`);
    for (const [i, row] of data.entries()) {
      if (i === 0 || (i === data.length - 1 && row.length === 1 && row[0] === '')) continue;
      if (row.length !== schema.fields.length)
        throw new Error(`${resource.path}, line ${i + 1}: cells missing`);
      insert.run(...row.map((text, c) => readCell(text, schema.fields[c]!, schema.missingValues)));
    }
  }
};
