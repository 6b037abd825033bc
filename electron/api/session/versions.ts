/** Counters of what has changed since the session began; an answer kept with its count is good while the count stands. */
export interface Versions {
  /** Castings, releases, variations, colours. */
  reference: number;
  /** All from which the market is fitted. */
  market: number;
  /** Cars and what hangs on them. */
  cars: number;
  /** Anything at all. */
  all: number;
  touch(tables: string[]): void;
  touchAll(): void;
}

const referenceTables = new Set([
  'maker',
  'series',
  'casting',
  'casting_part',
  'casting_feature',
  'release',
  'variation',
  'colour',
]);
const marketTables = new Set([
  'series',
  'casting',
  'release',
  'variation',
  'sale_record',
  'exchange_rate',
  'assumption_set',
  'setting',
]);
const carTables = new Set([
  'car',
  'car_candidate',
  'condition_check',
  'part_grade',
  'restoration_plan',
  'plan_line',
  'part',
  'decision',
  'photo',
  'disposal',
  'lot',
]);

export const createVersions = (): Versions => {
  const versions: Versions = {
    reference: 0,
    market: 0,
    cars: 0,
    all: 0,
    touch(tables) {
      if (tables.length === 0) return;
      versions.all += 1;
      if (tables.some(table => referenceTables.has(table))) versions.reference += 1;
      if (tables.some(table => marketTables.has(table))) versions.market += 1;
      if (tables.some(table => carTables.has(table))) versions.cars += 1;
    },
    touchAll() {
      versions.reference += 1;
      versions.market += 1;
      versions.cars += 1;
      versions.all += 1;
    },
  };
  return versions;
};
