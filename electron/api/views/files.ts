/** What the procedures answer about imports, reports, assumptions and parts. */
import type { PartOnShelf } from '../../../db/records/plans/parts.ts';
import type { AssumptionSet } from '../../../valuation/index.ts';

export type { LedgerKind } from '../../../db/import/ledgers/columns.ts';
export type { LedgerResult } from '../../../db/import/ledgers.ts';
export type {
  Encoding,
  ImportKind,
  ImportPreview,
  ImportResult,
  LotChoice,
  Separator,
} from '../../../db/import/types.ts';

/** Long work streams these; the last one carries the result. */
export type Progress<T> =
  /** `quietFor`: so many seconds have passed without news of this stage. */
  | { type: 'progress'; done: number; total: number; stage: string; quietFor?: number }
  | { type: 'done'; result: T };

export interface ReportResult {
  fileName: string;
  mime: string;
  bytes: number;
  /** Fetched with `reports.file`. */
  token: string;
  warnings: string[];
  /** Pages that `reports.page` can show; none where they were not wanted. */
  previewPages: number;
  /** Pages of the paper; none where it has no pages. */
  pages: number;
}

export interface AssumptionsView {
  version: number;
  note: string;
  madeAt: string | null;
  body: AssumptionSet;
  /** True while the owner has not changed the project's own starting points. */
  untouched: boolean;
  versions: { version: number; madeAt: string; note: string }[];
}

export type PartStock = PartOnShelf;
