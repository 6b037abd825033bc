import type { CarTables } from './schema/cars.ts';
import type { CollectionTables } from './schema/collection.ts';
import type { MarketTables } from './schema/market.ts';
import type { PaperTables } from './schema/paper.ts';
import type { PlanTables } from './schema/plans.ts';
import type { ReferenceTables } from './schema/reference.ts';
import type { WorkTables } from './schema/work.ts';

export type { HalfGrade } from './schema/half-grade.ts';

/** The tables as the current schema has them; snake_case and doubled grades never leave `db/`. */
export interface Schema
  extends ReferenceTables,
    CarTables,
    MarketTables,
    PlanTables,
    WorkTables,
    PaperTables,
    CollectionTables {}
