import { emptySeason, type Season, type Standing } from './season.ts';

const standings: readonly Standing[] = ['in', 'must', 'never'];

const amountOrNull = (value: unknown): number | null =>
  typeof value === 'number' && Number.isFinite(value) && value >= 0 ? value : null;

/** Reads a season as it was written; what cannot be read is left out. */
export const readSeason = (text: string | null): Season => {
  let body: unknown;
  try {
    body = JSON.parse(text ?? 'null');
  } catch {
    return emptySeason;
  }
  if (typeof body !== 'object' || body === null) return emptySeason;
  const from = new Map<string, unknown>(Object.entries(body));
  const pairs = from.get('standings');
  const kept = new Map<number, Standing>();
  for (const pair of Array.isArray(pairs) ? pairs : []) {
    const [id, word] = Array.isArray(pair) ? pair : [];
    const standing = standings.find(one => one === word);
    if (Number.isSafeInteger(id) && standing) kept.set(id, standing);
  }
  const parts = from.get('parts');
  const limits = typeof parts === 'object' && parts !== null ? Object.entries(parts) : [];
  return {
    standings: kept,
    options: new Map(),
    colours: new Map(),
    hours: amountOrNull(from.get('hours')),
    cash: amountOrNull(from.get('cash')),
    parts: Object.fromEntries(limits.map(([name, limit]) => [name, amountOrNull(limit)])),
    perCasting: amountOrNull(from.get('perCasting')) || null,
    mostCars: null,
    begun: new Map(),
  };
};

/**
 * Takes the season that an earlier version kept in this window for a collection, once; null where there is
 * none.
 */
export const takeOldSeason = (dir: string): Season | null => {
  const key = `playworn-season:${dir}`;
  const text = localStorage.getItem(key);
  if (text === null) return null;
  localStorage.removeItem(key);
  const season = readSeason(text);
  return season.standings.size > 0 ? season : null;
};
