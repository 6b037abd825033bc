/** What the procedures answer about the collection itself. */
import type { Currency, IsoDate } from '../../../valuation/index.ts';

/** Where the service stands: without an open collection the screens show the first start. */
export interface CollectionState {
  open: boolean;
  dir: string | null;
  defaultDir: string;
  demoDir: string;
  host: 'window' | 'browser' | 'command line';
  version: string;
  /** Something the owner must be told once, such as "the last session ended without closing; checked, all is well". */
  notices: string[];
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
    cars: number;
    lots: number;
    castings: number;
    variations: number;
    saleRecords: number;
    photographs: number;
  };
  lastBackup: BackupInfo | null;
}

export interface BackupInfo {
  name: string;
  at: string;
  reason: string;
  bytes: number;
  /** For the state from before a restore: the name of the backup that took its place. */
  replacedBy?: string;
}

export interface HistoryEntry {
  id: number;
  label: string;
  at: string;
  undone: boolean;
}

export interface CheckFinding {
  level: 'ok' | 'warning' | 'damage';
  sentence: string;
}

export interface SearchHit {
  kind: 'car' | 'lot' | 'casting' | 'variation' | 'sale record';
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
