import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

import { ourColumns } from '../../../db/import/columns.ts';

const root = join(import.meta.dirname, '../../..');

const imported = new Set(Object.values(ourColumns).flatMap(columns => columns.map(({ name }) => name)));

/** Names of columns that are no names of ours: those of our import files are words that owners write. */
const ofTables = [
  ...new Set(
    readFileSync(join(root, 'tests/migrations/schema.sql'), 'utf8').match(/\b[a-z]+(?:_[a-z0-9]+)+\b/g),
  ),
].filter(name => !imported.has(name));

/** What only `db/` does: building queries, and naming columns as the tables do. */
const marks: [string, RegExp][] = [
  ['builds a query', /\.(?:selectFrom|updateTable|insertInto|deleteFrom|with)\(\s*['"`]/],
  ['writes SQL', /\bsql(?:<|`|\.)|import\s*\{[^}]*\bsql\b[^}]*\}\s*from 'kysely'|\.prepare\(/],
  ['names a column', new RegExp(`\\b(?:${ofTables.join('|')})\\b`)],
];

const breaches = (source: string): string[] =>
  marks.filter(([, pattern]) => pattern.test(source)).map(([what]) => what);

describe('the procedures', () => {
  it('leave every query and every column to the database’s own folder', () => {
    const files = globSync('electron/api/**/*.ts', { cwd: root });
    expect(files.length).toBeGreaterThan(50);
    // The lists that go out are headed by words of which some are those of the tables.
    const isHeaded = (file: string) => file.startsWith('electron/api/exports/');
    const found = files.flatMap(file =>
      breaches(readFileSync(join(root, file), 'utf8'))
        .filter(what => what !== 'names a column' || !isHeaded(file))
        .map(what => `${file} ${what}`),
    );
    expect(found).toEqual([]);
  });

  it('would be caught', () => {
    expect(breaches("await db.selectFrom('car').select('id')")).toEqual(['builds a query']);
    expect(breaches('await sql`SELECT 1`.execute(db)')).toEqual(['writes SQL']);
    expect(breaches("import { type Kysely, sql } from 'kysely';")).toEqual(['writes SQL']);
    expect(breaches('row.casting_id')).toEqual(['names a column']);
    expect(breaches('  cost_minor: null,')).toEqual(['names a column']);
    expect(breaches('const fine = car.castingId;')).toEqual([]);
  });
});
