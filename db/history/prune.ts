import type { Database } from 'better-sqlite3';

/** Actions that can be undone, and rows noted for them, before the oldest are forgotten. */
const mostActions = 1_000;
const mostRows = 300_000;

/**
 * Forgets the oldest actions beyond what history keeps, at opening, so that no action waits for it. The newest action
 * stays whatever its size.
 */
export const pruneHistory = (sqlite: Database, { actions = mostActions, rows = mostRows } = {}): void => {
  const newest = sqlite.prepare('SELECT max(id) FROM change').pluck();
  const byActions = sqlite.prepare('SELECT id FROM change ORDER BY id DESC LIMIT 1 OFFSET ?').pluck();
  const byRows = sqlite.prepare('SELECT change_id FROM change_row ORDER BY id DESC LIMIT 1 OFFSET ?').pluck();
  const last = Math.max(Number(byActions.get(actions) ?? 0), Number(byRows.get(rows) ?? 0));
  if (last === 0) return;
  sqlite.prepare('DELETE FROM change WHERE id <= ?').run(Math.min(last, Number(newest.get()) - 1));
};
