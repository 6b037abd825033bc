import type { SearchKind } from '../../../valuation/words.ts';
/** What the procedures answer about the collection itself. */

import type { BackupInfo as ListedBackup } from '../../../db/backup/list.ts';
import type { CollectionProblem, FolderSurvey } from '../../../db/backup/survey.ts';
import type { Currency, IsoDate } from '../../../valuation/index.ts';
import type { Finding } from '../../../valuation/wording/storage/facts.ts';

/** Where the service stands: without an open collection the screens show the first start. */
export interface CollectionState {
  open: boolean;
  dir: string | null;
  defaultDir: string;
  demoDir: string;
  host: 'window' | 'browser' | 'command line';
  version: string;
  /**
   * Something the owner must be told once, such as "the last session ended without closing;
   * checked, all is well".
   */
  notices: string[];
  /**
   * True where the disk or folder takes no changes: everything can be looked at, and every write is refused.
   */
  readOnly: boolean;
  /** Why, as a sentence or two; a refused write says the same. */
  readOnlyBecause: string | null;
  /**
   * Why the last folder that was to be opened was not; null once one is open. `collection.survey` says more.
   */
  problem: (CollectionProblem & { dir: string }) | null;
}

export interface CollectionSummary {
  dir: string;
  name: string;
  owner: string;
  isDemo: boolean;
  reportingCurrency: Currency;
  /** The effective date of every worth shown: today, or the demo's own date. */
  today: IsoDate;
  counts: {
    /** Sold ones counted. */
    cars: number;
    /** Those of lots that were only seen; they are not among `cars`. */
    seenCars: number;
    lots: number;
    castings: number;
    variations: number;
    saleRecords: number;
    photographs: number;
  };
  lastBackup: BackupInfo | null;
}

/** A folder in a collection's `backups/`, sound or not. */
export interface BackupInfo extends ListedBackup {
  /** What is wrong with it, as a sentence; null where nothing is, as far as it has been read. */
  wrong: string | null;
  /**
   * How it can be restored: as it was made; only unverified, its description not being
   * believed; or not at all.
   */
  restorable: 'verified' | 'unverified' | 'no';
}

/**
 * What there is in a folder whose collection cannot be opened; every backup in it has been read to its end.
 */
export interface FolderSurveyView extends Omit<FolderSurvey, 'backups'> {
  backups: BackupInfo[];
  /** Name of the backup nearest to what the collection last held, of those in which nothing is wrong. */
  nearest: string | null;
}

export interface HistoryEntry {
  id: number;
  label: string;
  at: string;
  undone: boolean;
}

export interface CheckFinding {
  level: 'ok' | 'warning' | 'damage';
  /** The fact, for a program, and the same in words. */
  finding: Finding;
  sentence: string;
  /** True where `collection.rebuild` may mend it. */
  canBeRebuilt: boolean;
}

export interface SearchHit {
  kind: SearchKind;
  id: number;
  title: string;
  detail: string;
  /** Route of the screen that shows it, such as `/cars/12`. */
  to: string;
}

export interface ExchangeRateView {
  id: number;
  currency: Currency;
  on: IsoDate;
  /** Decimal string: reporting currency for one unit. */
  rate: string;
}
