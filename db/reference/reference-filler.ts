import type { Database, Statement } from 'better-sqlite3';
import type { PartName, VariationFeature } from '../../valuation/words.ts';

/** Whose field it is, and what it says. */
export interface Detail {
  of: 'maker' | 'series' | 'casting' | 'release' | 'variation';
  field: string;
  value: string | number;
}

/** What a row says of its casting and its colour besides. */
export interface CastingFacts {
  parts: readonly { part: PartName; detail: string }[];
  lookAt: readonly { part: PartName; lookAt: string }[];
  featureValues: readonly { feature: VariationFeature; value: string }[];
  swatch: { colour: string; swatch: string } | null;
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
    { parts, lookAt, featureValues, swatch }: CastingFacts,
  ): void => {
    for (const { of, field, value } of details)
      statement(
        `UPDATE "${of}" SET "${field}" = ? WHERE id = ${found[of]} AND ("${field}" IS NULL OR "${field}" = '')`,
      ).run(value, variationId);
    for (const { part, detail } of parts)
      statement(
        `INSERT INTO casting_part (casting_id, part, detail) VALUES (${found.casting}, ?, ?) ON CONFLICT DO NOTHING`,
      ).run(variationId, part, detail);
    for (const { part, lookAt: look } of lookAt)
      statement(
        `INSERT INTO casting_part (casting_id, part, detail, look_at) VALUES (${found.casting}, ?, '', ?)
        ON CONFLICT (casting_id, part) DO UPDATE SET look_at = excluded.look_at WHERE look_at = ''`,
      ).run(variationId, part, look);
    for (const { feature, value } of featureValues)
      statement(
        `INSERT OR IGNORE INTO casting_feature (casting_id, feature, value) VALUES (${found.casting}, ?, ?)`,
      ).run(variationId, feature, value);
    if (swatch)
      statement('INSERT INTO colour (name, swatch) VALUES (?, ?) ON CONFLICT DO NOTHING').run(
        swatch.colour,
        swatch.swatch,
      );
  };
};
