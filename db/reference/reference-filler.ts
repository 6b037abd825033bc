import type { Database, Statement } from 'better-sqlite3';
import type { PartName } from '../../valuation/words.ts';

/** Whose field it is, and what it says. */
export interface Detail {
  of: 'maker' | 'series' | 'casting' | 'release' | 'variation';
  field: string;
  value: string | number;
}

/** How each is found from a variation. */
const found: Record<Detail['of'], string> = {
  variation: '?',
  release: '(SELECT release_id FROM variation WHERE id = ?)',
  casting: '(SELECT r.casting_id FROM variation v JOIN release r ON r.id = v.release_id WHERE v.id = ?)',
  series: `(SELECT c.series_id FROM variation v JOIN release r ON r.id = v.release_id JOIN casting c ON c.id = r.casting_id
    WHERE v.id = ?)`,
  maker: `(SELECT s.maker_id FROM variation v JOIN release r ON r.id = v.release_id JOIN casting c ON c.id = r.casting_id
    JOIN series s ON s.id = c.series_id WHERE v.id = ?)`,
};

/**
 * Fills blank fields of the reference inside an action, from a variation up to its maker; what is
 * filled already stays.
 */
export const referenceFiller = (sqlite: Database) => {
  const statements = new Map<string, Statement>();
  const statement = (sql: string): Statement => {
    const known = statements.get(sql) ?? sqlite.prepare(sql);
    statements.set(sql, known);
    return known;
  };
  return (
    variationId: number,
    details: readonly Detail[],
    parts: readonly { part: PartName; detail: string }[],
  ): void => {
    for (const { of, field, value } of details)
      statement(
        `UPDATE "${of}" SET "${field}" = ? WHERE id = ${found[of]} AND ("${field}" IS NULL OR "${field}" = '')`,
      ).run(value, variationId);
    for (const { part, detail } of parts)
      statement(
        `INSERT INTO casting_part (casting_id, part, detail) VALUES (${found.casting}, ?, ?) ON CONFLICT DO NOTHING`,
      ).run(variationId, part, detail);
  };
};
